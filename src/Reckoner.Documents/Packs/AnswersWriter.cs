using System.Buffers;
using System.IO.Compression;
using System.Text.Json;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Documents.Lessons;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Reporting;
using Reckoner.Tables;

namespace Reckoner.Documents.Packs;

/// <summary>
/// What marking needs: the seed, the questions, and for each sheet its operands and all that belongs on it, written sheet by sheet.
/// </summary>
internal sealed class AnswersWriter
{
    private readonly ArrayBufferWriter<byte> written = new();

    /// <summary>What was written of each sheet: of a large class it is much longer than all else that is kept.</summary>
    private readonly List<byte[]> packed = [];
    private readonly Utf8JsonWriter json;
    private readonly SheetsOfClass all;

    /// <param name="first">The questions of the first sheet: what they have in common with those of every other is said once.</param>
    public AnswersWriter(SheetsOfClass all, IReadOnlyList<AskedQuestion> first)
    {
        this.all = all;
        json = Json.Begin(written);
        json.WriteString("title", all.Lesson.Lesson.Title);
        json.WriteString("language", all.Lesson.Words.Language);
        json.WriteString("seed", all.Secret.Seed);
        json.WriteString("key", all.Key);
        json.Objects(
            "files",
            all.Made,
            m =>
            {
                json.WriteString("file", m.File);
                json.WriteString("hash", m.Hash);
            }
        );
        json.Objects("questions", first, q => Question(json, q));
        json.WriteStartArray("sheets");
    }

    public void Add(SheetOf sheet, IReadOnlyList<AskedQuestion> questions)
    {
        json.WriteStartObject();
        Sheet(json, sheet, questions);
        json.WriteEndObject();
        json.Flush();
        Pack();
    }

    /// <summary>Ends it and puts it where it is to stand.</summary>
    public void WriteTo(Stream stream)
    {
        json.WriteEndArray();
        json.Objects("left", all.Left, s => Left(json, s));
        Json.End(json);
        json.Dispose();
        Pack();
        foreach (var part in packed)
        {
            using var unpacking = new DeflateStream(new MemoryStream(part), CompressionMode.Decompress);
            unpacking.CopyTo(stream);
        }
        stream.WriteByte((byte)'\n');
    }

    private void Pack()
    {
        using var part = new MemoryStream();
        using (var packing = new DeflateStream(part, CompressionLevel.Fastest, leaveOpen: true))
        {
            packing.Write(written.WrittenSpan);
        }
        packed.Add(part.ToArray());
        written.ResetWrittenCount();
    }

    /// <summary>What all sheets have in common.</summary>
    private static void Question(Utf8JsonWriter json, AskedQuestion asked)
    {
        var question = asked.Question;
        json.WriteNumber("question", question.Number);
        json.WriteString("task", QuestionReader.Word(question.Task));
        if (question.Terms.Marks is { } marks)
        {
            json.WriteString("marks", marks.ToString("0.#", System.Globalization.CultureInfo.InvariantCulture));
        }
        else
        {
            json.WriteNull("marks");
        }
        json.WriteBoolean("drawn", question.Drawn is not null);
        if (asked.Datapath is { } datapath)
        {
            json.Machine(datapath.Machine.Name, datapath.Machine.Hash, asked.Slip);
            json.Width(datapath);
            if (MachineCatalogue.Find(datapath.Machine.Name) is not { } known || !IsOf(known, datapath.Machine))
            {
                // Whoever marks need not have the file.
                json.WriteString("text", Printer.Text(datapath.Machine.Description));
            }
        }
        if (asked.Condition is { } condition)
        {
            json.WriteString("condition", condition);
        }
        if (asked.Exposing is { } exposing)
        {
            json.WriteString("exposing", exposing);
        }
    }

    private static bool IsOf(Source source, IMachine machine) =>
        Machine.Read(source, MachineCatalogue.Find).Hash == machine.Hash;

    private static void Sheet(Utf8JsonWriter json, SheetOf sheet, IReadOnlyList<AskedQuestion> questions)
    {
        json.WriteString("sheet", $"{sheet.Number}");
        json.WriteString("identifier", sheet.Student.Identifier);
        json.WriteString("name", sheet.Student.Name);
        json.Objects(
            "answers",
            questions,
            asked =>
            {
                json.WriteNumber("question", asked.Question.Number);
                if (asked.Walk is { } walk)
                {
                    json.Operands(walk.Datapath, walk.Operands);
                    json.Results("results", walk.Datapath, walk.Results);
                }
                json.Objects(
                    "tables",
                    asked
                        .Works.OfType<TableWork>()
                        .Select((t, i) => (Work: t, Number: i + 1))
                        .Where(t => t.Work.IsToFill),
                    t => Table(json, t.Work, $"{asked.Question.Number}", t.Number)
                );
                json.Objects(
                    "fields",
                    asked.Works.OfType<FieldsWork>().SelectMany(f => f.Fields),
                    f =>
                    {
                        json.WriteString("name", f.Name);
                        json.WriteString("label", f.Label);
                        json.WriteString("expected", f.Expected);
                    }
                );
            }
        );
    }

    private static void Left(Utf8JsonWriter json, EarlierSheet sheet)
    {
        json.WriteString("sheet", $"{sheet.Number}");
        json.WriteString("identifier", sheet.Identifier);
        json.Objects(
            "answers",
            sheet.Operands.OrderBy(o => o.Key),
            question =>
            {
                json.WriteNumber("question", question.Key);
                json.Object(
                    "operands",
                    () =>
                    {
                        foreach (var (name, number) in question.Value)
                        {
                            json.WriteString(name, Bits.Text(number));
                        }
                    }
                );
            }
        );
    }

    /// <param name="number">Of the tables of its question, from 1.</param>
    private static void Table(Utf8JsonWriter json, TableWork table, string question, int number)
    {
        var columns = table.Grid.Columns;
        json.List("columns", columns, c => json.WriteStringValue(c.Name));
        json.List(
            "reasons",
            columns.Where((c, i) => c.Role == ColumnRole.Sentences || table.IsDecision(i)),
            c => json.WriteStringValue(c.Name)
        );
        json.Objects(
            "rows",
            table.Grid.Rows.Zip(table.Open, Enumerable.Range(0, table.Open.Count)),
            row =>
            {
                if (row.First.Cycle is { } cycle)
                {
                    json.WriteNumber("cycle", cycle);
                }
                // As they belong there: marks are for the eye.
                json.List("cells", row.First.Cells, c => json.WriteStringValue($"{c}"));
                json.List("open", row.Second.Order(), i => json.WriteStringValue(columns[i].Name));
                json.List(
                    "places",
                    row.Second.Order(),
                    i => json.WriteStringValue($"{question}.{table.Place(number, row.Third, i)}")
                );
            }
        );
    }
}
