using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Documents.HandedIn;
using Reckoner.Documents.Lessons;
using Reckoner.Explaining;
using Reckoner.Marking;
using Reckoner.Questions;
using Reckoner.Running;
using Reckoner.Sheets;

namespace Reckoner.Documents.Marking;

/// <summary>Marks tables that were made without sheets: one for each file, all of the same operands, told apart by their names.</summary>
/// <param name="kit">Of <see cref="KitOf"/>; its ways can be searched.</param>
internal sealed class PlainMarking(MarkingKit kit, IReadOnlyList<BigInteger> operands, MarkScheme scheme)
{
    private static readonly AskedForm Form = new(1, QuestionTask.Fill, null);

    /// <summary>So many rows more than there are cycles are looked at, as on a sheet.</summary>
    private const int MostBeyond = 8;

    private readonly Datapath datapath = kit.Datapath!;

    public static MarkingKit KitOf(Datapath datapath) => new(Form, datapath);

    public MarkedClass Marked(IEnumerable<HandedFile> files, string language, string key, CancellationToken stop)
    {
        var ways = kit.Ways!;
        var (sheets, unmarked, passedOver) = (
            new List<(string Path, HandTable Table)>(),
            new List<UnmarkedFile>(),
            new List<string>()
        );
        foreach (var file in files)
        {
            stop.ThrowIfCancellationRequested();
            if (file.IsLitter)
            {
                passedOver.Add(file.Path);
                continue;
            }
            var (text, trouble) = HandedReader.Of(file);
            var table = text?.Pages.Select(p => HandTable.Of(datapath, p.Rows)).MaxBy(t => t.Rows.Count);
            if (table is null || table.Rows.All(r => r.All(w => w.Written.IsZero)))
            {
                unmarked.Add(new UnmarkedFile(file.Path, trouble ?? new Term("handed.no-table")));
                continue;
            }
            sheets.Add((file.Path, table));
        }
        var names = Names([.. sheets.Select(s => s.Path)]);
        List<MarkedSheet> marked =
        [
            .. sheets
                .Select((s, i) => (s.Path, s.Table, Number: new SheetNumber(i), Name: names[i]))
                .AsParallel()
                .AsOrdered()
                .WithCancellation(stop)
                .Select(s => new MarkedSheet(
                    new AnsweredSheet(s.Number, s.Name, "", []),
                    [s.Path],
                    [Of(ways, s.Table)]
                )),
        ];
        var answers = new AnswersOfClass(
            Reporting.Names.Of(datapath, Words.Vocabulary.Of(language)!),
            language,
            key,
            [Form],
            [.. marked.Select(m => m.Sheet)]
        );
        return new MarkedClass(answers, marked, unmarked, passedOver)
        {
            Kits = new Dictionary<int, MarkingKit> { [1] = kit },
            Scheme = scheme,
            Alike = AlikeSearch.Of(answers, marked),
        };
    }

    private MarkedQuestion Of(Ways ways, HandTable table)
    {
        var assumed = table.Assumed;
        if (table.Unread.Count > 0)
        {
            return new MarkedQuestion(Form, null)
            {
                Open = OpenReason.Unread,
                Unread = table.Unread,
                Assumed = assumed,
            };
        }
        ulong[] bits = [.. operands.Select(o => (ulong)o)];
        var cycles = Walk.Of(datapath, operands).Cycles;
        var seen = new Seen(
            [.. table.Rows.Take(1 + cycles + MostBeyond).Select(r => SeenRow.Of(ways.Layout, r))],
            [.. datapath.Results.Select(_ => (BigInteger?)null)]
        );
        var form = TableForm.Whole(datapath, cycles);
        var mark = TableMark.Of(ways, bits, seen, form, scheme, WhyQuestion.MostCauses);
        return new MarkedQuestion(Form, mark.Credit) { Walk = new MarkedWalk(datapath, bits, mark), Assumed = assumed };
    }

    /// <summary>The paths without their endings where that tells them apart, else whole.</summary>
    private static List<string> Names(IReadOnlyList<string> paths)
    {
        var stems = paths.Select(p => Path.ChangeExtension(p, null)).ToList();
        var twice = stems.GroupBy(s => s).Where(g => g.Count() > 1).Select(g => g.Key).ToHashSet();
        return [.. stems.Select((s, i) => HiddenCharacters.Dotted(twice.Contains(s) ? paths[i] : s))];
    }
}
