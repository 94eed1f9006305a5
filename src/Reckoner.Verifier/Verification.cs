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
            return new(
                null,
                "",
                read.Least,
                Claims(read, root, "laws", "law"),
                Claims(read, root, "outside", "outside")
            );
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

    private static IReadOnlyList<int> Claims(Machine machine, JsonElement root, string section, string kind)
    {
        if (Certificate.Find(root, section) is not { } found)
        {
            return [];
        }
        var claims = machine.Tree.Of(kind).ToList();
        var induction = new Induction(machine, kind == "law", Certificate.List(Certificate.Get(found, "loops")));
        var shown = new List<int>();
        foreach (var end in Certificate.List(Certificate.Get(found, "claims")))
        {
            var claim = Certificate.Number(Certificate.Get(end, "claim"));
            if (claim < 0 || claim >= claims.Count)
            {
                throw new RefusedException(Refusal.Unreadable, "claim");
            }
            induction.CheckClaim(claims[claim], Certificate.Get(end, "cases"));
            shown.Add(claim);
        }
        return [.. shown.Distinct().Order()];
    }
}
