namespace Reckoner.Running;

/// <summary>The kinds of happenings.</summary>
public enum HappeningKind
{
    Summed,
    Multiplied,
    CarrySaved,
    LookedUp,
    Said,
    Tested,
    Shifted,
    Became,
    Stayed,
    Remarked,
}

public abstract partial record Happening
{
    public abstract HappeningKind Kind { get; }

    /// <summary>What each kind of happening gives. A new kind is asked for wherever happenings are told apart, by the compiler.</summary>
    public T Match<T>(
        Func<Summed, T> summed,
        Func<Multiplied, T> multiplied,
        Func<CarrySaved, T> carrySaved,
        Func<LookedUp, T> lookedUp,
        Func<Said, T> said,
        Func<Tested, T> tested,
        Func<Shifted, T> shifted,
        Func<Became, T> became,
        Func<Stayed, T> stayed,
        Func<Remarked, T> remarked
    ) =>
        Kind switch
        {
            HappeningKind.Summed => summed((Summed)this),
            HappeningKind.Multiplied => multiplied((Multiplied)this),
            HappeningKind.CarrySaved => carrySaved((CarrySaved)this),
            HappeningKind.LookedUp => lookedUp((LookedUp)this),
            HappeningKind.Said => said((Said)this),
            HappeningKind.Tested => tested((Tested)this),
            HappeningKind.Shifted => shifted((Shifted)this),
            HappeningKind.Became => became((Became)this),
            HappeningKind.Stayed => stayed((Stayed)this),
            HappeningKind.Remarked => remarked((Remarked)this),
        };

    /// <summary>The same for what gives nothing back.</summary>
    public void Switch(
        Action<Summed> summed,
        Action<Multiplied> multiplied,
        Action<CarrySaved> carrySaved,
        Action<LookedUp> lookedUp,
        Action<Said> said,
        Action<Tested> tested,
        Action<Shifted> shifted,
        Action<Became> became,
        Action<Stayed> stayed,
        Action<Remarked> remarked
    ) =>
        _ = Kind switch
        {
            HappeningKind.Summed => Done(summed, (Summed)this),
            HappeningKind.Multiplied => Done(multiplied, (Multiplied)this),
            HappeningKind.CarrySaved => Done(carrySaved, (CarrySaved)this),
            HappeningKind.LookedUp => Done(lookedUp, (LookedUp)this),
            HappeningKind.Said => Done(said, (Said)this),
            HappeningKind.Tested => Done(tested, (Tested)this),
            HappeningKind.Shifted => Done(shifted, (Shifted)this),
            HappeningKind.Became => Done(became, (Became)this),
            HappeningKind.Stayed => Done(stayed, (Stayed)this),
            HappeningKind.Remarked => Done(remarked, (Remarked)this),
        };

    private static bool Done<T>(Action<T> action, T one)
    {
        action(one);
        return true;
    }
}
