using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Editing;

/// <summary>A name that stands for something of another machine: one that is inside this one, or that it follows.</summary>
/// <param name="Machine">Whose it is.</param>
/// <param name="Name">Null for the machine itself.</param>
/// <param name="IsFed">Whether it is an operand that a core is given.</param>
internal readonly record struct Foreign(string Machine, string? Name, bool IsFed = false)
{
    /// <summary>Whether something that the other machine declares is what this stands for.</summary>
    public bool CanBe(Named named) =>
        Name is null ? named.Kind == NamedKind.Machine
        : named.Name != Name ? false
        : IsFed ? named.Kind == NamedKind.Operand
        : named.IsSeenAround;
}

/// <summary>
/// Where the names of a description stand, and what each stands for. Goes by the words of the text, so that it also knows lines
/// that are not finished yet.
/// </summary>
internal sealed class Mentions
{
    private readonly Dictionary<Span, Named> known = [];
    private readonly Dictionary<Span, Foreign> foreign = [];
    private readonly ILookup<string, Named> byName;
    private readonly List<Span> claims;

    private Mentions(Description description)
    {
        Description = description;
        All = NamedThings.Of(description);
        byName = All.ToLookup(n => n.Name);
        claims = [.. description.Declarations.OfType<ClaimLine>().Select(c => c.Span)];
    }

    public Description Description { get; }

    /// <summary>Everything that is named, in the order of the text.</summary>
    public IReadOnlyList<Named> All { get; }

    /// <summary>What of other machines is named.</summary>
    public IEnumerable<Foreign> Foreigns => foreign.Values;

    public static Mentions Of(Description description)
    {
        var mentions = new Mentions(description);
        mentions.Read();
        return mentions;
    }

    /// <summary>The place of the name at a position, its last letter's end included.</summary>
    public Span? PlaceAt(int position) =>
        known
            .Keys.Concat(foreign.Keys)
            .Where(s => s.Start <= position && position <= s.End)
            .Cast<Span?>()
            .FirstOrDefault();

    public Named? At(int position) => PlaceAt(position) is { } place ? known.GetValueOrDefault(place) : null;

    public Foreign? ForeignAt(int position) =>
        PlaceAt(position) is { } place && foreign.TryGetValue(place, out var found) ? found : null;

    /// <summary>Where something is named, its declaration included.</summary>
    public IEnumerable<Span> Of(Named named) => known.Where(k => k.Value == named).Select(k => k.Key);

    /// <summary>Where something of another machine is named.</summary>
    public IEnumerable<Span> Of(Foreign thing) => foreign.Where(f => f.Value == thing).Select(f => f.Key);

    /// <summary>What can be named at a position.</summary>
    public IEnumerable<Named> VisibleAt(int position) =>
        All.Where(n => n.Kind != NamedKind.Machine && n.Scope.Start <= position && position <= n.Scope.End);

    private void Read()
    {
        var source = Description.Source;
        if (source.Text.Length > Parser.LongestText)
        {
            // It was not read either.
            return;
        }
        var core = Description.Declarations.OfType<CoreBlock>().FirstOrDefault();
        foreach (var line in Description.Declarations.OfType<FollowsLine>())
        {
            Put(line.Machine, null);
        }
        if (core is not null)
        {
            Put(core.Machine, null);
            core.Operands.ToList().ForEach(o => Put(o.Name, core.Machine.Text));
        }
        foreach (var token in Lexer.Read(source, new Report(source)).Tokens.Where(t => t.Kind == TokenKind.Name))
        {
            if (foreign.ContainsKey(token.Span))
            {
                continue;
            }
            if (Meant(token) is { } named)
            {
                known[token.Span] = named;
            }
            else if (core is not null)
            {
                foreign[token.Span] = new Foreign(core.Machine.Text, token.Text);
            }
        }

        void Put(Declared name, string? machine)
        {
            if (name.Text.Length > 0)
            {
                foreign[name.Span] = machine is null
                    ? new Foreign(name.Text, null)
                    : new Foreign(machine, name.Text, IsFed: true);
            }
        }
    }

    /// <summary>The innermost that holds there. Formulas of claims speak of operands and results first.</summary>
    private Named? Meant(Token token)
    {
        if (!byName.Contains(token.Text))
        {
            return null;
        }
        var isClaim = claims.Exists(c => c.Start <= token.Span.Start && token.Span.End <= c.End);
        return byName[token.Text]
            .Where(n => n.Scope.Start <= token.Span.Start && token.Span.Start <= n.Scope.End)
            .OrderByDescending(n => n.Place == token.Span)
            .ThenByDescending(n => n.Scope.Start)
            .ThenBy(n => (n.Kind == NamedKind.Result) != isClaim)
            .FirstOrDefault();
    }
}
