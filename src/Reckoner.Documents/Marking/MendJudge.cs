using System.Globalization;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Running;

namespace Reckoner.Documents.Marking;

/// <summary>Judges a line of a description that was put right: by what the machine then gives, not by how it is written.</summary>
internal sealed class MendJudge(MarkingKit kit, AnsweredQuestion answer)
{
    public const string Text = "text";
    private const string Line = "line";

    /// <summary>So many operands are walked where another line than the expected one was written.</summary>
    private const int Tried = 128;

    /// <summary>Whether lines that were written otherwise can be tried.</summary>
    public bool CanTell => kit.Planted is not null && kit.Ways is { Samples.Count: > 0 };

    public MarkedPlace Mended(AnsweredField field, string typed)
    {
        var standing =
            typed.Length == 0 ? PlaceStanding.Empty
            : FieldJudge.Same(typed, field.Expected) == PlaceStanding.Right || IsRight(typed) ? PlaceStanding.Right
            : PlaceStanding.Wrong;
        return new MarkedPlace(field, typed, standing, field.Expected);
    }

    private bool IsRight(string typed)
    {
        var right = kit.Datapath!;
        var widths = right.Widths.ToDictionary(w => w.Name, w => w.Value);
        if (
            kit.Planted is not { } slip
            || answer.Fields.FirstOrDefault(f => f.Name == Line) is not { } line
            || !int.TryParse(line.Expected, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
        )
        {
            return false;
        }
        var lines = Printer.Text(slip.Machine.Description).Split('\n');
        if (number < 1 || number > lines.Length)
        {
            return false;
        }
        // Where several lines belong there, a stroke stands between them, as on the key.
        lines[number - 1] = typed.Replace(" / ", "\n", StringComparison.Ordinal);
        var mended = Machine.Read(new Source("", string.Join('\n', lines)), MachineCatalogue.Find);
        return mended.At(widths).Datapath is { } built && GivesTheSame(right, built);
    }

    /// <summary>So many cycles more than the right machine takes none that was mended.</summary>
    private const int MostMore = 64;

    /// <summary>Of all operands, or of those that are tried where another way of working is looked for.</summary>
    private bool GivesTheSame(Datapath right, Datapath mended) =>
        mended.Operands.Select(o => (o.Name, o.Width)).SequenceEqual(right.Operands.Select(o => (o.Name, o.Width)))
        && mended.Results.Count == right.Results.Count
        // A loop of any length may be written; each of its rounds would be walked for every operand.
        && mended.MostCycles < right.MostCycles + MostMore
        && kit.Ways is { Samples: { Count: > 0 } samples }
        && samples
            .Where((_, i) => i % ((samples.Count + Tried - 1) / Tried) == 0)
            .Select(o => o.Select(b => (System.Numerics.BigInteger)b).ToList())
            .All(o => Walk.Of(mended, o).Results.SequenceEqual(Walk.Of(right, o).Results));
}
