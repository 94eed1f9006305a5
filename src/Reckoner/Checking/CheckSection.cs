namespace Reckoner.Checking;

/// <summary>What is asked of every case. A check counts each apart.</summary>
public enum CheckSection
{
    /// <summary>Whether the laws hold inside "given".</summary>
    Laws,

    /// <summary>Whether what is stated for all other operands holds for them.</summary>
    Outside,

    /// <summary>Whether results that it has in common with the machine it follows are equal, where both are given.</summary>
    Follows,
}

/// <summary>The names of sections, in JSON and in the keys of their words.</summary>
internal static class CheckSections
{
    public static string Name(this CheckSection section) =>
        section switch
        {
            CheckSection.Laws => "laws",
            CheckSection.Outside => "outside",
            CheckSection.Follows => "follows",
        };

    /// <summary>The section of a name; null where there is none.</summary>
    public static CheckSection? Named(string name) =>
        Enum.GetValues<CheckSection>().Where(s => s.Name() == name).Select(s => (CheckSection?)s).FirstOrDefault();
}
