namespace Reckoner.Marking;

/// <summary>What a table loses for what is wrong in it.</summary>
internal enum MarkScheme
{
    /// <summary>Each row is judged from the one above as it was written, and each cause costs one row, however many it spoils.</summary>
    FollowThrough,

    /// <summary>Likewise, but a cause costs as many rows as it was made in.</summary>
    EachTime,

    /// <summary>Each row that is another than the machine's costs one.</summary>
    PerRow,

    /// <summary>Each register of each row that is another than the machine's costs one.</summary>
    PerRegister,

    /// <summary>Rows count up to the first that is wrong.</summary>
    FirstError,
}
