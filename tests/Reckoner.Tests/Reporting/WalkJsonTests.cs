using System.Numerics;
using System.Text.Json;
using Reckoner.Reporting;
using Reckoner.Words;
using Xunit;

namespace Reckoner.Tests;

/// <summary>Walks as JSON: the fields that others read, by name and type.</summary>
public class WalkJsonTests
{
    private const string Number = "^-?[0-9]+$";
    private const string BitString = "^[01]+$";

    private static JsonElement Json(string machine, int width, params IReadOnlyList<BigInteger> operands) =>
        Parsed(WalkJson.Of(Walks.Of(Walks.At(machine, width), operands), Vocabulary.English));

    private static JsonElement Parsed(string text)
    {
        using var document = JsonDocument.Parse(text, new JsonDocumentOptions { AllowDuplicateProperties = false });
        return document.RootElement.Clone();
    }

    /// <summary>An object's fields with their types, one a line.</summary>
    private static string Fields(JsonElement element) =>
        string.Join(' ', element.EnumerateObject().Select(p => $"{p.Name}:{Kind(p.Value)}"));

    private static string Kind(JsonElement value) =>
        value.ValueKind switch
        {
            JsonValueKind.True or JsonValueKind.False => "truth",
            JsonValueKind.Object => "{}",
            JsonValueKind.Array => "[]",
            var kind => kind.ToString().ToLowerInvariant(),
        };

    private const string Document =
        "format:number machine:string description:string width:{} operands:{} given:truth cycles:number results:{} "
        + "holds:truth laws:[] outside:[] rows:[]";

    [Fact]
    public void A_walk_has_exactly_the_fields_of_the_contract()
    {
        var walk = Json("divide-still-divisor", 5, 29, 6);
        Assert.Equal(Document, Fields(walk));
        Assert.Equal(1, walk.GetProperty("format").GetInt32());
        Assert.Equal("divide-still-divisor", walk.GetProperty("machine").GetString());
        Assert.Matches("^sha256:[0-9a-f]{64}$", walk.GetProperty("description").GetString());
        Same("{'n':5}", walk.GetProperty("width"));
        Same("{'dividend':'29','divisor':'6'}", walk.GetProperty("operands"));
        Same("{'quotient':'4','remainder':'5'}", walk.GetProperty("results"));
        Assert.Equal(6, walk.GetProperty("cycles").GetInt32());
        Same(
            "[{'text':'dividend = quotient * divisor + remainder','holds':true,'applies':true},"
                + "{'text':'remainder < divisor','holds':true,'applies':true}]",
            walk.GetProperty("laws")
        );
    }

    [Fact]
    public void The_load_is_row_zero_and_has_no_moments_when_nothing_happens_there()
    {
        var load = Json("divide-still-divisor", 5, 29, 6).GetProperty("rows")[0];
        Same(
            "{'cycle':0,'kind':'load','repeat':0,'round':0,'step':null,"
                + "'registers':{'R':'0000011101','D':'00110','Q':'00000'},'moments':[]}",
            load
        );
        var computing = Json("divide-signed-truncating", 4, -7, 2).GetProperty("rows")[0].GetProperty("moments");
        Assert.Equal(
            ["subtract"],
            computing[0].GetProperty("events").EnumerateArray().Select(e => e.GetProperty("kind").GetString())
        );
    }

    [Fact]
    public void A_cycle_shows_what_the_edge_stores_and_its_moments_what_stands_on_the_wires()
    {
        var row = Json("divide-still-divisor", 5, 29, 6).GetProperty("rows")[4];
        Assert.Equal(
            "cycle:number kind:string repeat:number round:number step:null last:truth registers:{} moments:[]",
            Fields(row)
        );
        Assert.Equal((4, 1, 4), (Int(row, "cycle"), Int(row, "repeat"), Int(row, "round")));
        Assert.Equal("cycle", row.GetProperty("kind").GetString());
        Assert.False(row.GetProperty("last").GetBoolean());
        var moments = row.GetProperty("moments");
        Assert.Equal(2, moments.GetArrayLength());
        Assert.All(
            moments.EnumerateArray(),
            m => Assert.Equal("moment:number stored:truth registers:{} values:{} text:string events:[]", Fields(m))
        );
        Assert.Equal([false, true], moments.EnumerateArray().Select(m => m.GetProperty("stored").GetBoolean()));
        Same(
            "{'difference':{'bits':'00001','signed':false},'borrow':{'bits':'0','signed':false}}",
            moments[0].GetProperty("values")
        );
        Same("{'R':'0000101000','D':'00110','Q':'00001'}", moments[0].GetProperty("registers"));
        Same("{'R':'0001010000','D':'00110','Q':'00001'}", moments[1].GetProperty("registers"));
        Assert.Equal(Compact(row.GetProperty("registers")), Compact(moments[1].GetProperty("registers")));
        Same(
            "{'kind':'subtract','line':21,'facts':{'unit':'alu','left':'00111','right':'00110','result':'00001',"
                + "'signed':false,'number':'1','borrow':false,'complement':'11001','carry':true},"
                + "'text':'00111 - 00110 does not borrow'}",
            moments[0].GetProperty("events")[0]
        );
    }

    [Fact]
    public void Outside_given_the_laws_are_silent_and_what_is_stated_there_is_judged()
    {
        var walk = Json("divide-still-divisor", 5, 29, 0);
        Assert.Equal(Document, Fields(walk));
        Assert.False(walk.GetProperty("given").GetBoolean());
        Same("[]", walk.GetProperty("laws"));
        Same(
            "[{'text':'quotient = 2^n - 1 and remainder = dividend','holds':true,'applies':true}]",
            walk.GetProperty("outside")
        );
    }

    [Fact]
    public void A_broken_law_is_told()
    {
        var walk = Json("running/divide-remainder-doubled", 4, 10, 3);
        Assert.False(walk.GetProperty("holds").GetBoolean());
        Assert.Equal(
            [false, true],
            walk.GetProperty("laws").EnumerateArray().Select(l => l.GetProperty("holds").GetBoolean())
        );
    }

    public static TheoryData<string> Catalogue =>
        [.. Machines.Catalogue, "reporting/odd-names", "reporting/one-name-twice"];

    [Theory]
    [MemberData(nameof(Catalogue))]
    public void Every_machine_gives_the_same_fields_with_numbers_as_strings_and_bits_of_full_width(string machine)
    {
        var datapath = Walks.At(machine);
        var operands = SampleOperands.Of(datapath, new Random(1)).First();
        var walk = Parsed(WalkJson.Of(Running.Walk.Of(datapath, operands), Vocabulary.English));
        Assert.Equal(Document, Fields(walk));
        foreach (var number in Values(walk, "operands").Concat(Values(walk, "results")))
        {
            Assert.Matches(Number, number.GetString());
        }
        foreach (var row in walk.GetProperty("rows").EnumerateArray())
        {
            CheckRegisters(row);
            foreach (var moment in row.GetProperty("moments").EnumerateArray())
            {
                CheckRegisters(moment);
                Assert.All(Values(moment, "values"), v => Assert.Equal("bits:string signed:truth", Fields(v)));
                Assert.All(Values(moment, "values"), v => Assert.Matches(BitString, v.GetProperty("bits").GetString()));
                Assert.All(
                    moment.GetProperty("events").EnumerateArray(),
                    e => Assert.Equal("kind:string line:number facts:{} text:string", Fields(e))
                );
            }
        }

        void CheckRegisters(JsonElement element)
        {
            var registers = element.GetProperty("registers").EnumerateObject().ToList();
            Assert.Equal(datapath.Registers.Select(r => r.Name), registers.Select(r => r.Name));
            Assert.Equal(datapath.Registers.Select(r => r.Width), registers.Select(r => r.Value.GetString()!.Length));
            Assert.All(registers, r => Assert.Matches(BitString, r.Value.GetString()));
        }
    }

    /// <summary>Two branches of one step may use the same name; the later value stands.</summary>
    [Fact]
    public void A_name_that_two_branches_share_stands_once_with_its_later_value()
    {
        var moments = Json("reporting/one-name-twice", 4, 3).GetProperty("rows")[1].GetProperty("moments");
        Same("{'next':{'bits':'0100','signed':false}}", moments[0].GetProperty("values"));
        Same("{'next':{'bits':'0110','signed':false}}", moments[1].GetProperty("values"));
    }

    private static int Int(JsonElement element, string name) => element.GetProperty(name).GetInt32();

    private static IEnumerable<JsonElement> Values(JsonElement element, string name) =>
        element.GetProperty(name).EnumerateObject().Select(p => p.Value);

    /// <summary>Expected text with ' for ".</summary>
    private static void Same(string expected, JsonElement element) =>
        Assert.Equal(expected.Replace('\'', '"'), Compact(element));

    private static string Compact(JsonElement element) => JsonSerializer.Serialize(element, Plain);

    private static readonly JsonSerializerOptions Plain = new()
    {
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };
}
