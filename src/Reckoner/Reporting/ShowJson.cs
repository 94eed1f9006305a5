using Reckoner.Measuring;
using Reckoner.Notation;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>One machine as JSON: its description, and its hardware at chosen widths.</summary>
internal static class ShowJson
{
    public static string Of(Hardware hardware, Vocabulary words) =>
        Json.Document(json =>
        {
            var datapath = hardware.Datapath;
            json.Subject(datapath);
            json.WriteString("title", datapath.Machine.Title?.In(words.Language));
            json.List("notes", datapath.Machine.Notes, note => json.WriteStringValue(note.In(words.Language)));
            json.WriteString("text", Printer.Text(datapath.Machine.Description));
            json.Objects(
                "operands",
                datapath.Operands,
                o =>
                {
                    json.WriteString("name", o.Name);
                    json.WriteNumber("width", o.Width);
                    json.WriteBoolean("signed", o.IsSigned);
                }
            );
            json.Objects(
                "registers",
                datapath.Registers,
                r =>
                {
                    json.WriteString("name", r.Name);
                    json.WriteString("phrase", r.Phrase?.In(words.Language));
                    json.WriteNumber("width", r.Width);
                    json.WriteBoolean("signed", r.IsSigned);
                    json.WriteString("loads", Printer.Text(r.Loads.Written!));
                    json.Objects(
                        "parts",
                        r.Parts,
                        p =>
                        {
                            json.WriteString("name", p.Name);
                            json.WriteNumber("high", p.High);
                            json.WriteNumber("low", p.Low);
                        }
                    );
                }
            );
            json.Objects(
                "meanings",
                datapath.Meanings,
                m =>
                {
                    json.WriteString("name", m.Name);
                    json.WriteString("phrase", m.Phrase?.In(words.Language));
                    json.WriteString("value", m.Text);
                    if (m.Point is { } point)
                    {
                        json.WriteNumber("point", point);
                    }
                    json.WriteString(
                        "until",
                        m.Until is { } until ? datapath.Steps.First(s => s.Number == until).Name : null
                    );
                }
            );
            json.Objects(
                "units",
                hardware.Units,
                u =>
                {
                    json.Unit(u);
                    json.Objects(
                        "uses",
                        u.Uses,
                        use =>
                        {
                            json.WriteNumber("step", use.Step);
                            json.WriteNumber("line", use.Line);
                            json.WriteString("value", Printer.Text(use.Value.Written!));
                        }
                    );
                }
            );
            json.WriteNumber("register_bits", hardware.RegisterBits.Count);
            json.WriteNumber("choice_bits", hardware.ChoiceBits);
            json.WriteNumber("counter_bits", hardware.CounterBits);
            json.WriteBoolean("uses_last", hardware.UsesLast);
            json.Objects(
                "decisions",
                hardware.Decisions,
                d =>
                {
                    json.WriteString("text", ControlText.Of(d));
                    json.WriteNumber("line", d.Line);
                }
            );
            json.WriteNumber("cycles_least", hardware.Cycles.Least);
            json.WriteNumber("cycles_most", hardware.Cycles.Most);
        });
}
