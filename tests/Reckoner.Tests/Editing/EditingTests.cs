using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Diagnostics;
using Reckoner.Editing;
using Reckoner.Notation;
using Xunit;

namespace Reckoner.Tests.Editing;

/// <summary>Names of descriptions and cures, over the whole catalogue and over every example of a mistake.</summary>
public sealed class EditingTests
{
    private const string Fresh = "zyx_0";

    public static TheoryData<string> Short => [.. MachineCatalogue.Names.Where(Portion.IsShort)];

    public static TheoryData<string> Long => [.. MachineCatalogue.Names.Where(name => !Portion.IsShort(name))];

    [Theory]
    [Trait("Length", "long")]
    [MemberData(nameof(Long))]
    public void A_name_of_a_long_description_is_found_wherever_it_stands(string name) =>
        A_name_is_found_wherever_it_stands(name);

    private static string Put(string text, IEnumerable<Span> places, string name) =>
        places.OrderByDescending(s => s.Start).Aggregate(text, (t, s) => t[..s.Start] + name + t[s.End..]);

    /// <summary>
    /// Given another name everywhere, it is the same machine: nothing is wrong with it, it does what it did, and given its old name back
    /// it is the same text. A place that was missed, or one too many, breaks one of these.
    /// </summary>
    [Theory]
    [MemberData(nameof(Short))]
    public void A_name_is_found_wherever_it_stands(string name)
    {
        var source = MachineCatalogue.Find(name)!;
        var machine = Machine.Read(source, MachineCatalogue.Find);
        var mentions = Mentions.Of(machine.Description);
        var follows = machine.Description.Declarations.OfType<FollowsLine>().Any();
        var hasCore = machine.Description.Declarations.OfType<CoreBlock>().Any();
        // What it shares with one that it names cannot be called otherwise in one of them alone; of the rest some are tried.
        var inner = mentions
            .All.Where(n =>
                n.Kind != NamedKind.Machine
                && !(follows && n.IsSharedWith(isCore: false))
                && !(hasCore && n.IsSharedWith(isCore: true))
            )
            .ToList();
        foreach (var named in inner.Where((_, i) => (i + name.Length) % 4 == 0))
        {
            var places = mentions.Of(named).ToList();
            Assert.Contains(named.Place, places);
            var text = Put(source.Text, places, Fresh);
            var renamed = Machine.Read(new Source(source.Name, text), MachineCatalogue.Find);
            var (datapath, found) = renamed.At();
            Assert.True(
                datapath is not null,
                $"{named.Name}: {string.Join(", ", found.Select(d => d.Id.Name))}\n{text}"
            );
            Assert.Equal(machine.At().Diagnostics.Select(d => d.Id), found.Select(d => d.Id));
            var back = Mentions.Of(renamed.Description);
            Assert.Equal(source.Text, Put(text, back.Of(back.All.First(n => n.Name == Fresh)), named.Name));
        }
    }

    /// <summary>Put in, it leaves fewer mistakes in all: none takes the place of another.</summary>
    [Fact]
    public void A_cure_mends_what_it_is_for()
    {
        var cured = new HashSet<Id>();
        var texts = DiagnosticEntry
            .All.Where(e => e.Wrong.Beside.Count == 0)
            .Select(e => e.Wrong.Text)
            .Append(
                MachineCatalogue.Find("divide-still-divisor")!.Text.Replace(" = ", " := ", StringComparison.Ordinal)
            );
        foreach (var text in texts)
        {
            var source = new Source("example", text);
            foreach (var diagnostic in Found(source))
            {
                if (Cure.Of(diagnostic) is not { } cure)
                {
                    continue;
                }
                cured.Add(diagnostic.Id);
                var mended = new Source("example", Put(source.Text, [cure.Place], cure.Text));
                Assert.True(
                    Count(mended, diagnostic.Severity) < Count(source, diagnostic.Severity),
                    $"{diagnostic.Id.Name}: '{source[cure.Place]}' becomes '{cure.Text}'"
                );
            }
        }
        Assert.True(cured.Count >= 8, string.Join(" ", cured.Select(c => c.Name)));
    }

    /// <summary>Where a file is named that gives no name, what is said is an example and no cure; a digit of another script is no word.</summary>
    [Theory]
    [InlineData("machine ../..\n")]
    [InlineData("follows ./.machine\n")]
    public void An_example_is_no_cure(string text)
    {
        var wrong = Found(new Source("example", text)).Where(d => d.Id == Id.NameNotFile).ToList();
        Assert.NotEmpty(wrong);
        Assert.All(wrong, d => Assert.Null(Cure.Of(d)));
    }

    /// <summary>Of one severity: a text that can be read again may be remarked upon.</summary>
    private static int Count(Source source, Severity severity) => Found(source).Count(d => d.Severity == severity);

    private static List<Diagnostic> Found(Source source) =>
        [.. Machine.Read(source, MachineCatalogue.Find).At().Diagnostics.Where(d => d.Source == source)];
}
