using Reckoner.Costing;
using Reckoner.Diagnostics;
using Reckoner.Hdl;
using Reckoner.Words;

namespace Reckoner.Questions;

/// <summary>How is a machine written as hardware text, with a bench that holds it against its walks?</summary>
internal sealed record HdlQuestion(AskedMachine Machine)
{
    /// <summary>Larger tables become no text that anyone reads.</summary>
    public const int MostCells = 1 << 14;

    public HdlLanguage Language { get; init; }

    /// <summary>The name of a piece that is left out for a lab; null for nothing.</summary>
    public string? LeftOut { get; init; }

    /// <summary>The adders of a module that is written as it is built; null for one that is written as the description is.</summary>
    public AdderChoice? Built { get; init; }

    /// <param name="words">Whose language the comments of our own are in.</param>
    public Answer<HdlFiles> Ask(Vocabulary words)
    {
        var found = new Findings();
        if (Machine.Bound(0, found) is not { } datapath)
        {
            return found.Refused<HdlFiles>();
        }
        if (Built is not null)
        {
            UnitNames.AddUnknown(Built, [datapath], found);
            if (found.HasErrors)
            {
                return found.Refused<HdlFiles>();
            }
        }
        if (datapath.Tables.FirstOrDefault(t => t.Cells.Count > MostCells) is { } table)
        {
            found.Add(
                Id.TableTooLong,
                AskedPart.Widths,
                0,
                ("table", table.Name),
                ("cells", table.Cells.Count),
                ("most", MostCells)
            );
            return found.Refused<HdlFiles>();
        }
        var gaps = HdlGap.Of(datapath);
        if (LeftOut is not null && gaps.All(g => g.Name != LeftOut))
        {
            var known = gaps.Select(g => g.Name).ToList();
            found.Add(Id.NoSuchPiece, AskedPart.LeftOut, 0, ("piece", LeftOut), ("known", known));
            return found.Refused<HdlFiles>();
        }
        var gap = gaps.Where(g => g.Name == LeftOut).Select(g => g.Gap).FirstOrDefault();
        return found.Given(HdlFiles.Of(datapath, Language, words, gap, Built));
    }
}
