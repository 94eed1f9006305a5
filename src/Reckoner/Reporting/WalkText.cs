using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Numbers;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>
/// A walk as text: time runs down, bits stand in columns, parts of a register apart. The reasons stand beside the rows where
/// there is room, else under them; registers too wide for the page stand under each other.
/// </summary>
internal sealed partial class WalkText
{
    private const int Gap = 2;

    /// <summary>Reasons stand beside the rows only when they have this many columns.</summary>
    private const int RoomBeside = 48;

    /// <summary>The same for reasons of one clause.</summary>
    private const int RoomForShort = 26;

    private readonly Walk walk;
    private readonly Vocabulary words;
    private readonly int columns;
    private readonly TextWriter text;
    private readonly bool hasRounds;
    private readonly bool hasSteps;
    private readonly int labelWidth;

    /// <summary>What stands in columns: registers, then what they stand for.</summary>
    private readonly IReadOnlyList<(string Heading, int Width)> fields;

    private readonly Speech speech;

    private WalkText(TextWriter text, Walk walk, Vocabulary words, int columns, ReasonForm form)
    {
        this.text = text;
        speech = Speech.Of(walk.Datapath, words, HouseStyle.None with { Reasons = form });
        this.walk = walk;
        this.words = words;
        this.columns = columns;
        var loops = walk.Datapath.Schedule.Where(s => s.IsLoop).ToList();
        hasRounds = loops.Count > 1 || loops.Exists(s => s.Steps.Count > 1);
        hasSteps = walk.Datapath.Steps.Any(s => s.Name is not null);
        labelWidth = walk.Rows.Select(Label).Append(Heading()).Max(Wrapping.Columns);
        var said = walk.Rows.Select(Said).ToList();
        fields =
        [
            .. Registers.Select(r => (r.Name, Math.Max(Columns.Width(r), r.Name.Length))),
            .. Datapath.Meanings.Select(
                (m, i) => (m.Name, said.Select(s => s[i]).Append(m.Name).Max(Wrapping.Columns))
            ),
        ];
    }

    private Datapath Datapath => walk.Datapath;

    private IReadOnlyList<Register> Registers => Datapath.Registers;

    /// <summary>The whole text, lines ended by line feeds and at most <paramref name="columns"/> wide where words can break.</summary>
    public static string Of(Walk walk, Vocabulary words, int columns, ReasonForm form = ReasonForm.Short) =>
        Written.Text(text => Write(text, walk, words, columns, form));

    /// <summary>The same, row by row.</summary>
    public static void Write(TextWriter text, Walk walk, Vocabulary words, int columns, ReasonForm form)
    {
        var report = new WalkText(text, walk, words, columns, form);
        report.Head();
        report.Table();
        report.Foot();
    }

    private void Line(string line = "")
    {
        text.Write(line.AsSpan().TrimEnd());
        text.Write('\n');
    }

    private void Filled(string words, int indent, string lead = "")
    {
        foreach (var line in Wrapping.Folded(words, columns - indent))
        {
            Line(Wrapping.Padded(lead, indent) + line);
            lead = "";
        }
    }

    /// <summary>A number and its bits on one line, or the bits below it, both folded.</summary>
    private void Number(string name, BigInteger number, string bits)
    {
        var lead = $"   {name} = ";
        var line = $"{lead}{Bits.Text(number)} = {bits}";
        if (line.Length <= columns)
        {
            Line(line);
            return;
        }
        Filled(Bits.Text(number), lead.Length, lead);
        Filled(bits, lead.Length, "= ".PadLeft(lead.Length));
    }
}
