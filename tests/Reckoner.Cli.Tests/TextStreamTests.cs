using System.Text;
using Reckoner.Binding;
using Reckoner.Reporting;
using Reckoner.Running;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Long documents are passed on as they are made.</summary>
public class TextStreamTests
{
    [Fact]
    public void Characters_that_are_cut_in_two_are_put_together()
    {
        const string Said = "größer ≥ 𝔽 ende";
        using var text = new StringWriter();
        using (var stream = new TextStream(text))
        {
            foreach (var one in Encoding.UTF8.GetBytes(Said))
            {
                stream.Write([one]);
            }
        }
        Assert.Equal(Said, text.ToString());
    }

    private sealed class Pieces : MemoryStream
    {
        public int Largest { get; private set; }

        /// <summary>Spans come here too: a stream of memory passes them on as bytes to whoever derives from it.</summary>
        public override void Write(byte[] buffer, int offset, int count)
        {
            Largest = Math.Max(Largest, count);
            base.Write(buffer, offset, count);
        }
    }

    /// <summary>Ten megabytes, of which never more than a few rows are kept back.</summary>
    [Fact]
    public void A_walk_of_many_cycles_is_written_row_by_row()
    {
        var datapath = Machine
            .Read(
                new Source(
                    "many.machine",
                    "machine many\n\nwidth n = 8 in 2..16\n\noperand a : n\n\nregister A \"a\" : n loads a\n\n"
                        + "repeat 10000\n  A <- A + A\nend\n\nresult r = A\n\nlaw 0 <= r\n"
                ),
                _ => null
            )
            .At(8)
            .Datapath!;
        var walk = Walk.Of(datapath, [1]);
        using var pieces = new Pieces();
        WalkJson.Write(pieces, walk, Vocabulary.English);
        Assert.InRange(pieces.Length, 5_000_000, 50_000_000);
        Assert.InRange(pieces.Largest, 1, 200_000);
        Assert.Equal(WalkJson.Of(walk, Vocabulary.English), Encoding.UTF8.GetString(pieces.ToArray()));
        using var lines = new Pieces();
        TableFormat.OnText(lines, text => WalkText.Write(text, walk, Vocabulary.English, 80, Styles.ReasonForm.Short));
        Assert.InRange(lines.Length, 200_000, 5_000_000);
        Assert.InRange(lines.Largest, 1, 50_000);
        Assert.Equal(WalkText.Of(walk, Vocabulary.English, 80), Encoding.UTF8.GetString(lines.ToArray()));
    }
}
