using System.Globalization;
using System.Numerics;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Reckoner.Tests;
using Xunit;

namespace Reckoner.Cli.Tests;

/// <summary>Banks of questions: graded as the standard says, right by what walks say, wrong by what "why" says.</summary>
public sealed class QuizTests
{
    public QuizTests() => WorkFolder.Enter();

    private static Dictionary<string, QtiReading> Items(string form) =>
        QtiReading.Package(QuizLesson.Banks[form]).ToDictionary(i => i.Identifier);

    /// <summary>
    /// The right answer scores all, nothing and anything else scores nothing, and each wrong answer that is known scores nothing and is
    /// told its own reason, however it is written.
    /// </summary>
    [Theory]
    [InlineData("qti")]
    [InlineData("qti3")]
    public void Every_item_is_graded_as_the_standard_says(string form)
    {
        var items = Items(form);
        Assert.Equal(42, items.Count);
        var wrong = 0;
        foreach (var item in items.Values)
        {
            Assert.Equal(item.Places.Order(), item.Right.Keys.Order());
            var right = item.Graded(item.Right);
            Assert.True(right.Score == right.Most && right.Most > 0, item.Identifier);
            Assert.Equal("Right.", right.Text);
            foreach (var place in item.Accepted)
            {
                foreach (var text in place)
                {
                    var with = item.Right.ToDictionary(r => r.Key, r => r.Key == place.Key ? text : r.Value);
                    Assert.Equal(right.Most, item.Graded(with).Score);
                }
                Assert.Equal(0, item.Graded(item.Right.Where(r => r.Key != place.Key).ToDictionary()).Score);
            }
            Assert.Equal(0, item.Graded(new Dictionary<string, string>()).Score);
            var said = new HashSet<string>();
            foreach (var (known, i) in item.Known.Select((k, i) => (k, i)))
            {
                for (var written = 0; written < known.Max(k => k.Count()); written++)
                {
                    var answer = known.ToDictionary(k => k.Key, k => k.ElementAtOrDefault(written) ?? k.First());
                    var outcome = item.Graded(answer);
                    Assert.Equal(0, outcome.Score);
                    var shown = Assert.Single(outcome.Shown);
                    Assert.Equal($"wrong{i + 1}", shown.Attribute("identifier")!.Value);
                    said.Add(shown.Value);
                }
                wrong++;
            }
            Assert.True(said.Count > 0 || item.Known.Count == 0);
        }
        Assert.True(wrong > 60, $"{wrong}");
    }

    /// <summary>10 is two in bits, and so right; ten, which a slip gives, is known by its other writings alone.</summary>
    [Fact]
    public void What_may_be_read_as_the_right_answer_is_right()
    {
        var item = Items("qti")["q12-v1-n1"];
        Assert.Equal("2", item.Right.Values.Single());
        Assert.Contains("10", item.Accepted.Single());
        var ten = Assert.Single(item.Known, k => k.Single().Contains("01010"));
        Assert.DoesNotContain("10", ten.Single());
    }

    /// <summary>Digits are texts: what is not written as one of them is no answer, whatever number it is.</summary>
    [Fact]
    public void Bits_are_never_compared_as_numbers()
    {
        var item = Items("qti")["q1-v1-r2"];
        Assert.All(
            item.Xml.Descendants().Where(e => e.Name.LocalName == "responseDeclaration"),
            d => Assert.Equal("string", d.Attribute("baseType")!.Value)
        );
        var (place, right) = item.Right.First();
        foreach (var other in new[] { "0" + right, right + ".0", right[..^1], right + " " })
        {
            Assert.Equal(
                0,
                item.Graded(item.Right.ToDictionary(r => r.Key, r => r.Key == place ? other : r.Value)).Score
            );
        }
    }

    /// <summary>What belongs into each row is what the walk as JSON has there.</summary>
    [Fact]
    public void Rows_hold_what_the_walk_says()
    {
        var walk = Command.Run("walk", "divide-still-divisor", "--width", "4", "13", "3", "--format", "json");
        var rows = JsonNode.Parse(walk.Output)!["rows"]!.AsArray();
        var items = Items("qti");
        for (var i = 1; i < rows.Count; i++)
        {
            var item = items[$"q1-v1-r{i}"];
            var registers = rows[i]!["registers"]!;
            List<string> should = [(string)registers["R"]!, (string)registers["Q"]!];
            if (i == rows.Count - 1)
            {
                should.AddRange(["4", "1"]);
            }
            Assert.Equal(should, item.Right.Values);
            // Its own digits stand nowhere in what it shows; those of the row above do.
            var shown = item.Xml.Descendants().First(e => e.Name.LocalName == "table").Value;
            Assert.Contains(Parted((string)rows[i - 1]!["registers"]!["R"]!), shown, StringComparison.Ordinal);
            Assert.Equal(0.5m, item.Graded(item.Right).Most);
        }

        static string Parted(string bits) => $"{bits[..4]} {bits[4..]}";
    }

    /// <summary>What is said of a wrong result is what "why" says of it, in its order.</summary>
    [Fact]
    public void Wrong_answers_are_explained_as_why_explains_them()
    {
        var item = Items("qti")["q11-v1-n1"];
        Assert.True(item.Wrong.Count > 10, $"{item.Wrong.Count}");
        foreach (var wrong in item.Wrong.Where((_, i) => i % 4 == 0))
        {
            var number = wrong.Values.Single();
            var why = Command.Run(
                "why",
                "multiply-booth",
                "--width",
                "4",
                "-4",
                "3",
                "--got",
                $"product={number}",
                "--format",
                "json"
            );
            var explained = JsonNode.Parse(why.Output)!["explanations"]!
                .AsArray()
                .Select(e => string.Join(' ', e!["causes"]!.AsArray().Select(c => (string)c!["text"]!)))
                .ToList();
            var points = item.Graded(wrong).Shown.Single().Descendants().Where(e => e.Name.LocalName == "li");
            List<string> told =
            [
                .. points.Select(p => p.Value).Where(p => !p.StartsWith("And ", StringComparison.Ordinal)),
            ];
            Assert.NotEmpty(told);
            Assert.All(
                told.Select((t, i) => (t, i)),
                t => Assert.StartsWith(explained[t.i], t.t, StringComparison.Ordinal)
            );
        }
    }

    /// <summary>What a slip makes of a row, from the row above as it is printed.</summary>
    [Fact]
    public void A_row_that_a_slip_gives_is_told_the_slip()
    {
        var item = Items("qti")["q1-v1-r3"];
        // 0011 0100: 3 less 3 leaves 0, a 1 enters the quotient, and all moves by one place. Worked out by hand.
        Assert.Equal("00001000 0001", string.Join(' ', item.Right.Values));
        Assert.Contains("Q: not written.", Said("00001000", "0000"), StringComparison.Ordinal);
        Assert.Contains(
            "the branch of \"not borrow\" is never taken.",
            Said("01101000", "0001"),
            StringComparison.Ordinal
        );
        Assert.Contains("added instead of subtracted.", Said("11001000", "0001"), StringComparison.Ordinal);
        Assert.Contains("none of the causes", Said("11111111", "0001"), StringComparison.Ordinal);

        string Said(params string[] written) =>
            item.Graded(item.Right.Keys.Zip(written).ToDictionary(p => p.First, p => p.Second)).Text;
    }

    /// <summary>Elements stand where the information model has them, with the attributes that it asks for.</summary>
    [Theory]
    [InlineData("qti", "http://www.imsglobal.org/xsd/imsqti_v2p1")]
    [InlineData("qti3", "http://www.imsglobal.org/xsd/imsqtiasi_v3p0")]
    public void Items_have_the_shape_of_the_information_model(string form, string space)
    {
        foreach (var element in Items(form).Values.SelectMany(i => i.Xml.DescendantsAndSelf()))
        {
            Assert.Equal(space, element.Name.NamespaceName);
            var name = QtiReading.Plain(element.Name.LocalName);
            Assert.True(QtiShape.Content.TryGetValue(name, out var content), name);
            var children = string.Concat(element.Elements().Select(e => $"{QtiReading.Plain(e.Name.LocalName)} "));
            Assert.True(Regex.IsMatch(children, $"^({content})$"), $"{name}: {children}");
            var attributes = element.Attributes().Select(a => QtiReading.Plain(a.Name.LocalName)).ToHashSet();
            Assert.All(QtiShape.Required(name), a => Assert.Contains(a, attributes));
            if (element.Elements().Any() && !QtiShape.IsMixed(name))
            {
                Assert.All(element.Nodes(), n => Assert.IsType<System.Xml.Linq.XElement>(n));
            }
        }
        Assert.All(Items(form).Keys, id => Assert.Matches("^[A-Za-z_][A-Za-z0-9_.-]*$", id));
    }

    [Fact]
    public void What_cannot_be_asked_is_named_with_its_reason()
    {
        _ = QuizLesson.Banks["text"];
        Assert.Equal(
            """
            quiz-text.bank holds 42 items of 10 questions; N wrong answers of them are recognised.
              Left out: Question 5, it should say. Any line that mends it is right, and a short answer needs every right one listed.
              Left out: Question 6. Any operands that show what is asked are right, and a short answer needs every right one listed.
              Left out: Question 7. A figure is filled in by hand and is no short answer.

            """,
            Regex
                .Replace(QuizLesson.Told, @"\d+ wrong", "N wrong")
                .Replace(WorkFolder.At("quiz-text.bank"), "quiz-text.bank", StringComparison.Ordinal)
        );
    }

    /// <summary>A record for each place; no cell of answers is one that a spreadsheet takes for a number and cuts zeros of.</summary>
    [Fact]
    public void A_list_keeps_its_zeros_in_a_spreadsheet()
    {
        var records = CsvReader.Read(File.ReadAllText(QuizLesson.Banks["csv"]));
        Assert.Equal(
            ["item", "question", "variant", "marks", "text", "place", "right", "wrong 1", "said 1"],
            records[0].Take(9)
        );
        Assert.All(records, r => Assert.Equal(records[0].Count, r.Count));
        var items = Items("qti");
        Assert.Equal(items.Values.Sum(i => i.Places.Count), records.Count - 1);
        foreach (var cell in records.Skip(1).SelectMany(r => r.Skip(6)).Where(c => c.Length > 0))
        {
            Assert.DoesNotContain(cell[0], "'=+-@\t\r");
            Assert.True(
                !decimal.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
                    || number.ToString(CultureInfo.InvariantCulture) == cell,
                cell
            );
        }
        foreach (var record in records.Skip(1))
        {
            var right = record[6].Split(" | ");
            Assert.Contains(items[record[0]].Right.Values, right.Contains);
            for (var i = 7; i < record.Count && record[i].Length > 0; i += 2)
            {
                Assert.Empty(record[i].Split(" | ").Intersect(right));
                Assert.NotEmpty(record[i + 1]);
            }
        }
    }

    [Fact]
    public void Copies_are_variants_with_operands_of_their_own_and_the_same_again_each_time()
    {
        File.WriteAllText(
            "quiz-copies.md",
            "---\nmachine: divide-still-divisor\nwidth: 5\n---\n# A\n\n```question\nsay quotient walk drawn\n```\n\n```question\nsay remainder walk 29 6\n```\n"
        );
        byte[] Made()
        {
            var made = Command.Run(
                "lesson",
                "quiz-copies.md",
                "--quiz",
                "qti",
                "--copies",
                "5",
                "-o",
                "quiz-copies.zip",
                "--overwrite"
            );
            Assert.Equal((0, ""), (made.Status, made.Errors));
            return File.ReadAllBytes("quiz-copies.zip");
        }
        Assert.Equal(Made(), Made());
        var items = QtiReading.Package("quiz-copies.zip");
        Assert.Equal(
            ["q1-v1-n1", "q1-v2-n1", "q1-v3-n1", "q1-v4-n1", "q1-v5-n1", "q2-v1-n1"],
            items.Select(i => i.Identifier)
        );
        var asked = items.Select(i => Regex.Match(i.Xml.Value, @"dividend = (\d+), divisor = (\d+)")).ToList();
        Assert.Equal(6, asked.Select(a => a.Value).Distinct().Count());
        for (var i = 0; i < 5; i++)
        {
            var (dividend, divisor) = (
                BigInteger.Parse(asked[i].Groups[1].Value, CultureInfo.InvariantCulture),
                BigInteger.Parse(asked[i].Groups[2].Value, CultureInfo.InvariantCulture)
            );
            Assert.Equal((dividend / divisor).ToString(CultureInfo.InvariantCulture), items[i].Right.Values.Single());
        }
    }

    /// <summary>Digits of another base are right in it, and what looks like bits there is none.</summary>
    [Fact]
    public void Tables_in_another_base_are_asked_in_it()
    {
        File.WriteAllText("quiz-hexadecimal.style", "base 16\n");
        File.WriteAllText(
            "quiz-base.md",
            "---\nmachine: divide-still-divisor\nwidth: 5\nstyle: quiz-hexadecimal.style\n---\n# A\n\n```question\nfill walk 31 1\n```\n"
        );
        var made = Command.Run("lesson", "quiz-base.md", "--quiz", "qti", "-o", "quiz-base.zip", "--overwrite");
        Assert.Equal((0, ""), (made.Status, made.Errors));
        Assert.EndsWith(
            "  With less: Question 1. Its table shows something else than the bits of registers after each cycle, so no wrong answer is recognised.\n",
            made.Output,
            StringComparison.Ordinal
        );
        var last = QtiReading.Package("quiz-base.zip")[^1];
        // 31 / 1 in five bits: the quotient register holds 11111, 1F in hexadecimal.
        Assert.Equal(["0X1F", "0x1F", "0x1f", "1F", "1f"], last.Accepted["RESPONSE3"].Order(StringComparer.Ordinal));
        Assert.DoesNotContain(
            last.Accepted.SelectMany(p => p),
            t => t.StartsWith("0b", StringComparison.Ordinal) && t.Length < 7
        );
    }

    /// <summary>A number is right in decimal, in bits and in hexadecimal digits, with or without zeros in front.</summary>
    [Fact]
    public void A_number_is_right_in_every_usual_writing()
    {
        File.WriteAllText(
            "quiz-number.md",
            "---\nmachine: divide-still-divisor\nwidth: 5\n---\n# A\n\n```question\nsay quotient walk 24 2\n```\n"
        );
        Assert.Equal(
            0,
            Command.Run("lesson", "quiz-number.md", "--quiz", "qti", "-o", "quiz-number.zip", "--overwrite").Status
        );
        var item = Assert.Single(QtiReading.Package("quiz-number.zip"));
        Assert.Subset(
            item.Accepted.SelectMany(g => g).ToHashSet(),
            new HashSet<string> { "12", "01100", "1100", "0b01100", "0b1100", "0xc", "0xC", "0x0c", "0x0C" }
        );
    }

    [Fact]
    public void German_lessons_ask_in_German()
    {
        File.WriteAllText(
            "quiz-german.md",
            "---\nmachine: divide-still-divisor\nwidth: 5\nlanguage: de\n---\n# A\n\n```question\nfill walk 29 6\n```\n\n```question\nfill paper 29 6\n```\n"
        );
        var made = Command.Run("lesson", "quiz-german.md", "--quiz", "text", "-o", "quiz-german.txt", "--overwrite");
        Assert.Equal((0, ""), (made.Status, made.Errors));
        Assert.EndsWith(
            "  Ausgelassen: Aufgabe 2. Ein Bild wird von Hand ausgefüllt und ist keine Kurzantwort.\n",
            made.Output,
            StringComparison.Ordinal
        );
        var text = File.ReadAllText("quiz-german.txt");
        Assert.Contains("Aufgabe 1, Takt 4\nq1-v1-r4, Variante 1\nPunkte: 1\n", text, StringComparison.Ordinal);
        Assert.Contains(
            "Die Zeile darüber stimmt. Was enthalten die Register in Zeile 4?\n",
            text,
            StringComparison.Ordinal
        );
        Assert.Contains("Zeile 25: Q: nicht geschrieben.", text, StringComparison.Ordinal);
    }
}
