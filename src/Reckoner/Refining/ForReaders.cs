using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>
/// The same machine told as one would tell it: a part of a register that is spoken of twice has a name, and a round that computes and
/// shifts at once is told as computing, then shifting.
/// </summary>
internal static class ForReaders
{
    public static Draft Of(Workshop workshop, Draft draft)
    {
        try
        {
            return WithParts(workshop, Unfolded(workshop, draft) ?? draft);
        }
        catch (BeyondMoveException)
        {
            return draft;
        }
    }

    /// <summary>A round of one moment in which a register gets a word shifted; null where none does.</summary>
    private static Draft? Unfolded(Workshop workshop, Draft draft)
    {
        if (draft.Round is not { Moments: [{ Statements: var statements }] })
        {
            return null;
        }
        var composer = workshop.Plain(draft);
        foreach (var let in statements.OfType<LetLine>())
        {
            composer.Widths[let.Name.Text] = Composer.WidthOf(composer.Read(let.Value));
            if (let.Second is { } second)
            {
                composer.Widths[second.Text] = 1;
            }
        }
        foreach (var transfer in statements.OfType<TransferLine>().Where(t => Shift.Of(t) is null))
        {
            if (
                transfer.Targets is [NameReference { Name: var register }]
                && draft.Registers.Any(r => r.Name.Text == register)
                && statements.OfType<TransferLine>().Count(t => t.Targets[0].ToString() == register) == 1
                && Unfolded(composer, draft, statements, transfer, register) is { } unfolded
            )
            {
                return unfolded;
            }
        }
        return null;
    }

    private static Draft? Unfolded(
        Composer composer,
        Draft draft,
        IReadOnlyList<Statement> statements,
        TransferLine transfer,
        string register
    )
    {
        var whole = composer.Whole(register);
        var width = composer.Widths[register];
        var word = composer.Read(transfer.Value, width);
        if (composer.Sign(width - 1) <= 0)
        {
            return null;
        }
        foreach (var isLeft in new[] { false, true })
        {
            if (word[isLeft ? ^1 : 0] is ChoicePiece { IsBit: false })
            {
                continue;
            }
            var enters = composer.Slice(word, isLeft ? 0 : width - 1, 1);
            var stays = composer.Slice(word, isLeft ? 1 : 0, width - 1);
            var leaves = composer.Slice(whole, isLeft ? width - 1 : 0, 1);
            var before = isLeft ? composer.Join(leaves, stays) : composer.Join(stays, leaves);
            if (composer.Groups(whole, before) is not [(var places, [SlicePiece or ChoicePiece] gets)])
            {
                continue;
            }
            composer.TakeHoisted();
            var stored = composer.Stored(places, gets);
            if (composer.TakeHoisted().Count > 0)
            {
                return null;
            }
            var others = statements.Where(s => s != transfer && Shift.Of(s) is not null).ToList();
            return draft.WithRound([
                [.. statements.Except(others).SelectMany(s => s == transfer ? stored : [s])],
                [
                    Make.Transfer(
                        [Make.Name(register)],
                        Make.Call(isLeft ? "shl" : "shr", Make.Name(register), composer.Written(enters))
                    ),
                    .. others,
                ],
            ]);
        }
        return null;
    }

    private static Draft WithParts(Workshop workshop, Draft draft)
    {
        var registers = draft.Registers.ToDictionary(r => r.Name.Text, r => Length.Of(r.Type.Width));
        var all = draft
            .Steps.SelectMany(Statements.Of)
            .SelectMany(Statements.Values)
            .Concat(draft.Results.Select(r => r.Value))
            .ToList();
        var used = all.SelectMany(Statements.NamesIn).ToHashSet();
        used.UnionWith(draft.Steps.SelectMany(Statements.Of).SelectMany(s => s.Names).Select(n => n.Name.Text));
        used.UnionWith(draft.Origin.Declarations.OfType<WidthLine>().Select(w => w.Name.Text));
        used.UnionWith(draft.Operands.Select(o => o.Name.Text).Concat(registers.Keys));
        draft = draft with { Parts = [.. draft.Parts.Where(p => used.Contains(p.Name.Text))] };
        var slices = all.SelectMany(Slices)
            .Where(s => s.HasLow && s.Value is NameReference of && registers.ContainsKey(of.Name))
            .GroupBy(s => s.ToString())
            .Where(g => g.Count() > 1)
            .Select(g => g.First())
            .ToList();
        foreach (var slice in slices)
        {
            var written = slice.ToString();
            var part =
                draft.Parts.FirstOrDefault(p => p.Slice.ToString() == written)
                ?? Named(workshop, draft, slice, registers[((NameReference)slice.Value).Name], used);
            used.Add(part.Name.Text);
            if (!draft.Parts.Contains(part))
            {
                draft = draft with { Parts = [.. draft.Parts, part] };
            }
            draft = draft.Mapped(v =>
                Mapping.Deep(v, e => e is Sliced && e.ToString() == written ? Make.Name(part.Name.Text) : e)
            );
        }
        return draft;
    }

    private static IEnumerable<Sliced> Slices(Expression value) =>
        value is Sliced slice ? [slice] : value.Children.SelectMany(Slices);

    /// <summary>A part as the description had it, or one named by where it lies; it is called what the result is that stands there.</summary>
    private static PartLine Named(Workshop workshop, Draft draft, Sliced slice, Length width, HashSet<string> used)
    {
        var written = slice.ToString();
        var known = draft
            .Origin.Declarations.OfType<PartLine>()
            .FirstOrDefault(p => p.Slice.ToString() == written && !used.Contains(p.Name.Text));
        if (known is not null)
        {
            return known;
        }
        var names = workshop.NewNames;
        var wanted =
            Length.Of(slice.High) + 1 == width ? names.Upper
            : Length.Of(slice.Low) == 0 ? names.Lower
            : names.Inner;
        var name = wanted.Text;
        for (var number = 2; used.Contains(name); number++)
        {
            name = wanted.Text + number;
        }
        var result = draft.Results.FirstOrDefault(r => r.Value.ToString() == written)?.Name;
        return new PartLine(
            default,
            Comments.None,
            Make.Declared(name),
            result is null ? null : new Phrase(default, result.Text, result.Others),
            slice
        );
    }
}
