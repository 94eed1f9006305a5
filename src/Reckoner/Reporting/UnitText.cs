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

    public static string WidthOf(Unit unit) =>
        unit.Kind == UnitKind.Multiplier ? $"{unit.Size} × {unit.By}" : unit.Size.ToString();
}
