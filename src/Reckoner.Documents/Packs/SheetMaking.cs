using System.Text;
using Reckoner.Documents.Lessons;
using Reckoner.Drawing;
using Reckoner.Sheets;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Documents.Packs;

/// <summary>
/// Makes the files of sheets in their order, on all processors and a few sheets ahead of the one that is written: no more are in
/// memory, whatever the class. Should its first file be asked for once more, all begins anew.
/// </summary>
internal sealed class SheetMaking(SheetsOfClass all)
{
    /// <summary>So many sheets stand in one file for the printer; more go on in the next.</summary>
    public const int Volume = 250;

    private static readonly int Ahead = 2 * Environment.ProcessorCount + 2;

    private readonly Lock asking = new();
    private readonly Queue<Task<Made>> begun = [];
    private int next;
    private Made? current;
    private PaperVolume? blank;
    private PaperVolume? key;
    private AnswersWriter? answers;
    private ClassKey? classKey;

    /// <summary>A sheet with all its files.</summary>
    private sealed record Made(
        int Sheet,
        IReadOnlyList<AskedQuestion> Questions,
        IReadOnlyList<byte[]> Files,
        Handout Blank,
        Handout Key
    );

    private AnsweredLesson Lesson => all.Lesson;

    /// <param name="sheet">Its place among all; not before the last one that was asked for, but for the first.</param>
    public byte[] File(int sheet, int form)
    {
        if (sheet == 0 && form == 0)
        {
            Begin();
        }
        if (current?.Sheet != sheet)
        {
            current = Next();
        }
        return current.Files[form];
    }

    /// <summary>All sheets since these papers were asked for last.</summary>
    public byte[] Papers(Edition edition)
    {
        ref var papers = ref edition == Edition.Blank ? ref blank : ref key;
        byte[] bytes;
        using (var its = papers!)
        {
            bytes = its.Bytes();
        }
        papers = null;
        if (blank is null && key is null && current?.Sheet < all.Sheets.Count - 1)
        {
            // Half a gigabyte is garbage now; left to itself it would grow by half of that before the next volume is full.
            GC.Collect();
        }
        return bytes;
    }

    public byte[] ClassKey() => classKey!.Pdf();

    public void Answers(Stream stream) => answers!.WriteTo(stream);

    private void Begin()
    {
        begun.Clear();
        (next, current, blank, key, answers, classKey) = (0, null, null, null, null, new ClassKey(all));
    }

    private Made Next()
    {
        while (next < all.Sheets.Count && begun.Count < Ahead)
        {
            var sheet = next++;
            begun.Enqueue(Task.Run(() => Of(sheet)));
        }
        var made = begun.Dequeue().GetAwaiter().GetResult();
        answers ??= new AnswersWriter(all, made.Questions);
        answers.Add(all.Sheets[made.Sheet], made.Questions);
        classKey!.Add(all.Sheets[made.Sheet], made.Questions);
        (blank ??= Begun()).Add(made.Blank);
        (key ??= Begun()).Add(made.Key);
        return made;
    }

    private PaperVolume Begun() =>
        new(
            Lesson.Lesson.Title,
            Lesson.Words.Language,
            PaperOf(SheetForm.Usual),
            beginOdd: Lesson.Lesson.Header.Sides?.Text == "2"
        );

    private static byte[] Text(string text) => new UTF8Encoding(encoderShouldEmitUTF8Identifier: false).GetBytes(text);

    private Made Of(int at)
    {
        var sheet = all.Sheets[at];
        IReadOnlyList<AskedQuestion>? questions;
        lock (asking)
        {
            questions = all.Ask(sheet);
        }
        if (questions is null)
        {
            throw new SheetRefusedException();
        }
        var (lesson, words) = (all.Of(sheet, questions), Lesson.Words);
        var blank = Paper(lesson, sheet, Edition.Blank);
        return new Made(
            at,
            questions,
            [
                HandoutWriter.Write(blank, Palette.Grey),
                Text(SheetPage.Of(lesson, sheet.Number)),
                SheetWorkbook.Write(sheet, questions, words),
                Text(SheetList.Of(sheet, questions, words)),
            ],
            blank,
            Paper(lesson, sheet, Edition.Key)
        );
    }

    private Handout Paper(AnsweredLesson lesson, SheetOf sheet, Edition asked)
    {
        var paper = PaperOf(sheet.Form);
        return LessonHandout.Of(lesson, Edition.Full, asked, paper) with
        {
            Mark = sheet.Number,
            Paper = paper,
            PageOf = (page, count) => Page(page, count, Lesson.Words),
        };
    }

    /// <summary>20 mm, in units of scenes: below it stands the number of the sheet, within the frame.</summary>
    private static readonly double LeastMargin = Math.Round(PaperSize.Units(20));

    /// <summary>30 mm: the number, and what stands beside and below it, are larger too.</summary>
    private static readonly double LeastLargeMargin = Math.Round(PaperSize.Units(30));

    private Documents.Paper PaperOf(SheetForm form)
    {
        var paper = LessonPack.PaperOf(Lesson);
        return form switch
        {
            SheetForm.Usual or SheetForm.Read => paper with { Margin = Math.Max(paper.Margin, LeastMargin) },
            SheetForm.Large => (paper with { Margin = Math.Max(paper.Margin, LeastLargeMargin) }).Enlarged,
        };
    }

    private static string Page(int page, int count, Vocabulary words) =>
        words.Say("sheet.page", ("page", page), ("count", count));
}
