using Reckoner.Datapaths;
using Reckoner.Words;

namespace Reckoner.Drawing;

/// <summary>
/// Tries layouts for a datapath and takes the one whose sheets can be read, are the fewest, and come out largest; of equal ones that
/// which is taken in most easily.
/// </summary>
internal static class PathSearch
{
    public static IReadOnlyList<PathSheet> Best(
        Datapath datapath,
        Vocabulary words,
        bool isBlank,
        IReadOnlyList<PathStory> stories,
        FigureRoom? given
    )
    {
        var room = given ?? Fitting.Free(datapath);
        (IReadOnlyList<PathSheet> Sheets, Merit Merit)? best = null;
        foreach (
            var layouts in new[] { given is null ? PathLayout.All : PathLayout.Large, PathLayout.Crowded }.TakeWhile(
                _ => best is not { Merit.IsGood: true }
            )
        )
        {
            Try(Planned(layouts));
        }
        return best!.Value.Sheets;

        void Try(List<Planned> all)
        {
            foreach (var alike in all.GroupBy(p => (p.Fits, p.Count)).OrderBy(g => (!g.Key.Fits, g.Key.Count)))
            {
                foreach (var planned in alike)
                {
                    List<PathSheet> sheets = [.. planned.Plans.SelectMany(planned.Drawing.Of)];
                    var merit = Merit.Of(sheets, room, isFree: given is null);
                    if (best is null || merit.CompareTo(best.Value.Merit) > 0)
                    {
                        best = (sheets, merit);
                    }
                    if (given is null && merit.IsGood)
                    {
                        break;
                    }
                }
                if (best!.Value.Merit.IsGood)
                {
                    break;
                }
            }
        }

        List<Planned> Planned(IReadOnlyList<PathLayout> layouts)
        {
            var planned = new List<Planned>();
            foreach (var layout in layouts)
            {
                var drawing = new PathSheets(datapath, words, isBlank, stories, layout, room);
                planned.Add(new Planned(drawing, [.. stories.Select(drawing.Plan)]));
                // Where everything stands on one sheet, narrower layouts change nothing but how it is cut.
                var isOne = planned[^1].Fits && planned[^1].Count == stories.Count;
                if (isOne && (given is null || layout.Cut != PathCut.AtSteps))
                {
                    break;
                }
            }
            return planned;
        }
    }

    private sealed record Planned(PathSheets Drawing, IReadOnlyList<PathPlan> Plans)
    {
        public bool Fits => Plans.All(p => p.Fits);

        public int Count => Plans.Sum(p => p.Sheets.Count);
    }

    /// <summary>What speaks for a layout, the first first.</summary>
    /// <param name="IsWhole">Whether every bus says how wide it is.</param>
    /// <param name="Legible">1 where the smallest text of every sheet can be read, else less.</param>
    /// <param name="IsPlain">Whether that stands where one looks for it.</param>
    /// <param name="Sheets">Fewer are better.</param>
    /// <param name="Scale">How much larger the sheets may be made; where nothing is given, whatever is legible is large enough.</param>
    private readonly record struct Merit(bool IsWhole, double Legible, bool IsPlain, int Sheets, double Scale)
        : IComparable<Merit>
    {
        public bool IsGood => this is { IsWhole: true, Legible: 1, IsPlain: true };

        public static Merit Of(IReadOnlyList<PathSheet> sheets, FigureRoom room, bool isFree)
        {
            var scale = sheets.Min(s => room.Scale(s.Scene));
            var legible = sheets.Min(s =>
                room.Scale(s.Scene) * s.Scene.Leaves.OfType<Text>().Min(t => t.Size) / BlockSizes.TextSize
            );
            var broadest = sheets.Max(s => s.Scene.SafeWidth / s.Scene.Height);
            var shown = isFree ? Math.Min(legible, room.Ratio / broadest) : legible;
            var buses = sheets.SelectMany(s => s.Parts).SelectMany(p => p.Buses).ToList();
            return new Merit(
                buses.TrueForAll(b => b.Labelled),
                Math.Round(Math.Min(1, shown + 0.002), 2),
                buses.TrueForAll(b => b.Number == NumberPlace.Usual),
                sheets.Count,
                isFree ? 1 : scale
            );
        }

        public int CompareTo(Merit other) =>
            (IsWhole, Legible, IsPlain, -Sheets, Scale).CompareTo(
                (other.IsWhole, other.Legible, other.IsPlain, -other.Sheets, other.Scale)
            );
    }
}
