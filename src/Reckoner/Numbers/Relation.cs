namespace Reckoner.Numbers;

/// <summary>How two numbers compare.</summary>
public enum Relation
{
    Equal,
    Unequal,
    Less,
    LessOrEqual,
    Greater,
    GreaterOrEqual,
}

/// <summary>What a relation means, and its sign.</summary>
internal static class Relations
{
    /// <summary>Whether a relation holds, from the sign of left minus right.</summary>
    public static bool Holds(this Relation relation, int order) =>
        relation switch
        {
            Relation.Equal => order == 0,
            Relation.Unequal => order != 0,
            Relation.Less => order < 0,
            Relation.LessOrEqual => order <= 0,
            Relation.Greater => order > 0,
            Relation.GreaterOrEqual => order >= 0,
        };

    public static string Symbol(this Relation relation) =>
        relation switch
        {
            Relation.Equal => "=",
            Relation.Unequal => "<>",
            Relation.Less => "<",
            Relation.LessOrEqual => "<=",
            Relation.Greater => ">",
            Relation.GreaterOrEqual => ">=",
        };
}
