namespace Reckoner.Proving;

/// <summary>What is known on a path: a form is 0, or it is 0 or more.</summary>
internal sealed record Fact(Form Form, bool IsEquation)
{
    public static Fact Zero(Form form) => new(form, true);

    public static Fact NotNegative(Form form) => new(form, false);

    /// <summary>For a whole form: it is below 0.</summary>
    public static Fact Negative(Form form) => new(-form - Form.One, false);

    public bool IsSoIn(Instance instance) => IsEquation ? Form.At(instance) == 0 : Form.At(instance) >= 0;

    /// <summary>True or false where the form is a number.</summary>
    public bool? Plain =>
        !Form.IsConstant ? null
        : IsEquation ? Form.Constant.Sign == 0
        : Form.Constant.Sign >= 0;
}
