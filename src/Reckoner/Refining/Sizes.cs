namespace Reckoner.Refining;

/// <summary>
/// How wide registers were and are, instead of how many bits a move took from them: within a step a register may have grown first,
/// and what fell away again is nobody's saving.
/// </summary>
internal static class Sizes
{
    /// <summary>The reasons of a candidate, with what became of each register from the version before it.</summary>
    public static IReadOnlyList<Reason> Told(Workshop workshop, Draft before, Candidate candidate)
    {
        var cuts = candidate.Reasons.Where(IsOfSize).ToList();
        var registers = before.Registers.ToDictionary(r => r.Name.Text, r => Length.Of(r.Type.Width));
        var told = candidate.Reasons.Where(r => !IsOfSize(r)).ToList();
        foreach (var register in candidate.Draft.Registers)
        {
            var name = register.Name.Text;
            var bits = Length.Of(register.Type.Width);
            if (!registers.TryGetValue(name, out var had) || had == bits)
            {
                continue;
            }
            var why = cuts.FindLast(c => Names(c).Contains(name));
            if (IsWider(workshop, bits - had))
            {
                told.Add(Changed(ReasonKind.Wider));
            }
            else if (why is not null)
            {
                told.Add(Changed(why.Kind));
            }

            Reason Changed(ReasonKind kind) =>
                new(kind, ("register", new RegisterNames(name)), ("bits", bits), ("before", had));
        }
        return told;
    }

    private static bool IsOfSize(Reason reason) => reason.Kind is ReasonKind.BitsZero or ReasonKind.SignsRepeated;

    private static IReadOnlyList<string> Names(Reason reason) =>
        [.. reason.Facts.Select(f => f.Value).OfType<RegisterNames>().SelectMany(r => r.Names)];

    /// <summary>Where which is wider depends on the widths it is taken to have shrunk, as it does at some.</summary>
    private static bool IsWider(Workshop workshop, Length more)
    {
        try
        {
            return workshop.Sign(more) > 0;
        }
        catch (BeyondMoveException)
        {
            return false;
        }
    }
}
