using Reckoner.Drawing;

namespace Reckoner.Documents;

/// <summary>
/// Handouts in one file, each with pages of its own, added one by one while others go on: what is added is drawn in its order by
/// whoever has time.
/// </summary>
/// <param name="title">Of the file, and its language.</param>
/// <param name="paper">Of an empty page.</param>
/// <param name="beginOdd">Whether each begins on the front of a leaf that is printed on both sides.</param>
internal sealed class PaperVolume(string title, string language, Paper paper, bool beginOdd) : IDisposable
{
    /// <summary>More handouts do not wait to be drawn.</summary>
    private const int MostWaiting = 8;

    private readonly PdfPages pages = new(title, language);
    private readonly Queue<Task> waiting = [];
    private Task last = Task.CompletedTask;

    public void Add(Handout handout)
    {
        var before = last;
        last = Task.Run(async () =>
        {
            await before;
            HandoutWriter.Add(pages, handout, Palette.Grey, paper, beginOdd);
        });
        waiting.Enqueue(last);
        if (waiting.Count > MostWaiting)
        {
            waiting.Dequeue().GetAwaiter().GetResult();
        }
    }

    public byte[] Bytes()
    {
        last.GetAwaiter().GetResult();
        return pages.Bytes();
    }

    public void Dispose() => pages.Dispose();
}
