using System.Text.Json;

namespace Reckoner.Verifier;

/// <summary>What a certificate shows.</summary>
/// <param name="Refusal">Why it shows nothing; null where it is accepted.</param>
/// <param name="What">Of a refusal, what it is about; may be empty.</param>
/// <param name="Least">From which width on.</param>
/// <param name="Laws">The laws that hold for every operand inside "given", by their place among them.</param>
/// <param name="Outside">The claims about all other operands that hold, likewise.</param>
public sealed record Verdict(
    Refusal? Refusal,
    string What,
    int Least,
    IReadOnlyList<int> Laws,
    IReadOnlyList<int> Outside
)
{
    public bool IsAccepted => Refusal is null;
}

/// <summary>
/// Replays a certificate on a description: the machine is executed here anew, in every case; the certificate only says which cases
/// are impossible and why, what holds in every round, and how it follows. Nothing of it is believed that is not checked.
/// </summary>
public static class Verification
{
    /// <param name="machine">The description.</param>
    /// <param name="hash">What the certificate must call it.</param>
    public static Verdict Of(Tree machine, string hash, string certificate)
    {
        try
        {
            using var document = Certificate.Read(certificate);
            var root = document.RootElement;
            if (Certificate.Number(Certificate.Get(root, "format")) != Certificate.Format)
            {
                throw new RefusedException(Refusal.OtherForm, "");
            }
            if (Certificate.Text(Certificate.Get(root, "description")) != hash)
            {
                throw new RefusedException(Refusal.OtherDescription, "");
            }
            var read = new Machine(machine);
            var shown = Certificate.List(Certificate.Get(root, "sections")).Select(s => Shown(read, s)).ToList();
            return new(null, "", read.Least, Covered("law", shown, read), Covered("outside", shown, read));
        }
        catch (RefusedException refused)
        {
            return new(refused.Refusal, refused.What, 0, [], []);
        }
        catch (OverflowException)
        {
            return new(Refusal.TooLong, "", 0, [], []);
        }
    }

    /// <summary>What a section shows: claims, for operands for which the "when" of laws is so or is not.</summary>
    private sealed record Section(string Kind, IReadOnlyList<(int Law, bool IsSo)> When, IReadOnlyList<int> Claims);

    private static Section Shown(Machine machine, JsonElement section)
    {
        var kind = Certificate.Text(Certificate.Get(section, "name"));
        var when = Certificate
            .List(Certificate.Get(section, "when"))
            .Select(w => (Certificate.Number(Certificate.At(w, 0)), Certificate.Number(Certificate.At(w, 1)) != 0))
            .ToList();
        var laws = machine.Tree.Of("law").ToList();
        if (
            kind is not ("law" or "outside")
            || when.Exists(w => w.Item1 < 0 || w.Item1 >= laws.Count || laws[w.Item1].Text != "when")
        )
        {
            throw new RefusedException(Refusal.Unreadable, "section");
        }
        var conditions = when.ConvertAll(w => (laws[w.Item1][1], w.Item2));
        var induction = new Induction(
            machine,
            kind == "law",
            conditions,
            Certificate.List(Certificate.Get(section, "loops"))
        );
        var claims = machine.Tree.Of(kind).ToList();
        var shown = new List<int>();
        foreach (var end in Certificate.List(Certificate.Get(section, "claims")))
        {
            var claim = Certificate.Number(Certificate.Get(end, "claim"));
            if (claim < 0 || claim >= claims.Count)
            {
                throw new RefusedException(Refusal.Unreadable, "claim");
            }
            induction.CheckClaim(claims[claim], Certificate.Get(end, "cases"));
            shown.Add(claim);
        }
        return new(kind, when, shown);
    }

    /// <summary>The claims that are shown whichever of the conditions are so.</summary>
    private static List<int> Covered(string kind, IReadOnlyList<Section> sections, Machine machine)
    {
        var own = sections.Where(s => s.Kind == kind).ToList();
        var conditions = own.SelectMany(s => s.When).Select(w => w.Law).Distinct().ToList();
        if (conditions.Count > 8)
        {
            throw new RefusedException(Refusal.TooLong, "when");
        }
        bool IsShown(int claim, int ways) =>
            own.Exists(s =>
                s.Claims.Contains(claim)
                && s.When.All(w => ((ways >> conditions.IndexOf(w.Law)) & 1) == (w.IsSo ? 1 : 0))
            );
        return
        [
            .. Enumerable
                .Range(0, machine.Tree.Of(kind).Count())
                .Where(claim => Enumerable.Range(0, 1 << conditions.Count).All(ways => IsShown(claim, ways))),
        ];
    }
}
