using Reckoner.Checking;
using Reckoner.Numbers;

namespace Reckoner.Reporting;

/// <summary>Idle bits as JSON: a register is a text of a mark per bit, as in the picture.</summary>
internal static class IdleJson
{
    public static void Write(Stream stream, IdleStudy study) =>
        Json.Document(
            stream,
            json =>
            {
                json.Subject(study.Datapath);
                json.WriteString("judged", study.IsExhaustive ? "over all operands" : "by structure");
                json.Objects(
                    "rows",
                    study.Rows,
                    row =>
                    {
                        json.WriteNumber("cycle", row.Cycle);
                        json.WriteNumber("repeat", row.Repeat);
                        json.WriteNumber("round", row.Round);
                        json.WriteString("step", row.Step?.Name);
                        json.WriteString("cases", row.Cases is { } cases ? Bits.Text(cases) : null);
                        json.WriteBoolean("for_all", row.IsForAll);
                        json.Object(
                            "registers",
                            () =>
                            {
                                foreach (var register in study.Datapath.Registers)
                                {
                                    json.WriteString(register.Name, IdleMarks.Of(row, register));
                                }
                            }
                        );
                    }
                );
                json.Objects(
                    "sharable",
                    study.Sharable(),
                    pair =>
                    {
                        json.WriteString("first", pair.First.Name);
                        json.WriteString("second", pair.Second.Name);
                        json.WriteNumber("most", pair.Most);
                    }
                );
            }
        );
}
