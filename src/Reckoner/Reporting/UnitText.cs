using Reckoner.Datapaths;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>What a unit is and how wide, in words.</summary>
internal static class UnitText
{
    public static string KindOf(Unit unit, Vocabulary words) => KindOf(unit.Kind, words);

    public static string KindOf(UnitKind kind, Vocabulary words) =>
        words.Say(
            kind switch
            {
                UnitKind.Adder => "adder",
                UnitKind.Multiplier => "multiplier",
                UnitKind.Comparator => "comparator",
                UnitKind.CarrySaveAdder => "carry-save-adder",
            }
        );

    /// <summary>A unit that no line names is known by the line of the first operation it serves.</summary>
    public static string Short(Unit unit, Datapath datapath, Vocabulary words) =>
        unit.Name ?? OnLine(KindOf(unit, words), unit.Uses[0].Line, unit.Uses[0].Value.Source, datapath, words);

    /// <summary>What stands on a line, which is of the machine's own text where no other is named; 0 for no line.</summary>
    public static string OnLine(string what, int line, Source? source, Datapath datapath, Vocabulary words) =>
        line == 0 ? what
        : source is null || source == datapath.Machine.Description.Source
            ? words.Say("cost.on-line", ("what", what), ("line", line))
        : words.Say("cost.on-line-of", ("what", what), ("line", line), ("source", source.Name));

    public static string WidthOf(Unit unit) =>
        unit.Kind == UnitKind.Multiplier ? $"{unit.Size} × {unit.By}" : unit.Size.ToString();
}
