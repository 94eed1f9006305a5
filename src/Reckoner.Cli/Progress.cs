using System.Diagnostics;
using System.Globalization;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>A line on a terminal that says how far a long run is, how many cases it tries a second where they are many, and the time left.</summary>
/// <param name="casesEach">How many cases a step has.</param>
/// <param name="terminal">Null when nobody watches.</param>
internal sealed class Progress(long casesEach, TextWriter? terminal, Vocabulary words, long from, long to)
{
    private const double FirstAfter = 1.0;
    private const double Between = 0.25;

    private readonly Stopwatch clock = Stopwatch.StartNew();
    private double said;
    private int length;

    /// <summary>May be told from any thread.</summary>
    public void Tell(long at)
    {
        lock (clock)
        {
            Show(at);
        }
    }

    private void Show(long at)
    {
        var now = clock.Elapsed.TotalSeconds;
        if (terminal is null || now < FirstAfter || now - said < Between)
        {
            return;
        }
        said = now;
        var done = at - from;
        var rate = done * (double)casesEach / now / 1e6;
        var text = words.Say(
            rate < 0.5 ? "check.progress-slow" : "check.progress",
            ("share", words.Decimal((100.0 * done / (to - from)).ToString("0.0", CultureInfo.InvariantCulture))),
            ("rate", rate.ToString("0")),
            ("left", (now * (to - at) / done).ToString("0"))
        );
        terminal.Write("\r" + text.PadRight(length));
        length = text.Length;
    }

    public void Clear()
    {
        if (length > 0)
        {
            terminal!.Write("\r" + new string(' ', length) + "\r");
        }
    }
}
