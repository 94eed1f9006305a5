using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Reckoner.Proving;

/// <summary>
/// A proof as a certificate, line for line what the verifier reads: for each section its loops with what holds at their heads and
/// behind them, the trees of cases of every duty, and those of the claims.
/// </summary>
internal static class CertificateText
{
    private static readonly JsonWriterOptions Options = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        MaxDepth = 1000,
    };

    /// <param name="hash">Of the description.</param>
    public static string Of(string hash, IReadOnlyList<SectionProof> sections)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            json.WriteStartObject();
            json.WriteNumber("format", 1);
            json.WriteString("description", hash);
            json.WriteStartArray("sections");
            foreach (var section in sections.Where(s => s.HasAny))
            {
                Write(json, section);
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static void Write(Utf8JsonWriter json, SectionProof section)
    {
        json.WriteStartObject();
        json.WriteString("name", section.Part.IsInside ? "law" : "outside");
        json.WriteStartArray("when");
        foreach (var (law, isSo) in section.Part.When)
        {
            json.WriteStartArray();
            json.WriteNumberValue(law);
            json.WriteNumberValue(isSo ? 1 : 0);
            json.WriteEndArray();
        }
        json.WriteEndArray();
        json.WriteStartArray("loops");
        foreach (var loop in section.Loops)
        {
            json.WriteStartObject();
            Write(json, "head", loop.HeadPieces, loop.Head, section.Variables);
            Write(json, "exit", loop.ExitPieces, loop.Exit, section.Variables);
            foreach (var obligation in section.Obligations.Where(o => o.Loop == loop.Number))
            {
                json.WritePropertyName(Name(obligation.Duty));
                Write(json, obligation.Root, section.Variables);
            }
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("claims");
        for (var c = 0; c < section.Claims.Count; c++)
        {
            if (section.Claims[c].End is { } end)
            {
                json.WriteStartObject();
                json.WriteNumber("claim", c);
                json.WritePropertyName("cases");
                Write(json, end.Root, section.Variables);
                json.WriteEndObject();
            }
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static string Name(Duty duty) =>
        duty switch
        {
            Duty.Entry => "entry",
            Duty.Round => "round",
            Duty.Last => "last",
            Duty.End => "end",
        };

    private static void Write(
        Utf8JsonWriter json,
        string name,
        IReadOnlyList<Piece> pieces,
        IReadOnlyList<Fact> facts,
        Variables variables
    )
    {
        json.WriteStartObject(name);
        json.WriteStartArray("pieces");
        foreach (var piece in pieces)
        {
            json.WriteStartArray();
            json.WriteStringValue(piece.Name);
            json.WriteStringValue(piece.Register.Name);
            Write(json, piece.High);
            Write(json, piece.Low);
            json.WriteNumberValue(piece.IsSigned ? 1 : 0);
            json.WriteEndArray();
        }
        json.WriteEndArray();
        json.WriteStartArray("facts");
        foreach (var fact in facts)
        {
            json.WriteStartArray();
            json.WriteStringValue(fact.IsEquation ? "=" : ">=");
            Write(json, fact.Form, variables);
            json.WriteEndArray();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Extent extent)
    {
        json.WriteStartArray();
        json.WriteNumberValue(extent.N);
        json.WriteNumberValue(extent.I);
        json.WriteNumberValue(extent.Constant);
        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, Case node, Variables variables)
    {
        json.WriteStartObject();
        if (node.Ways.Length > 0)
        {
            json.WriteStartArray("ways");
            for (var way = 0; way < node.Ways.Length; way++)
            {
                json.WriteStartObject();
                if (node.Ways[way] is { } next)
                {
                    json.WritePropertyName("go");
                    Write(json, next, variables);
                }
                else
                {
                    json.WritePropertyName("no");
                    Write(json, node.Refuted[way]!, variables);
                }
                json.WriteEndObject();
            }
            json.WriteEndArray();
        }
        if (node.Goals is { } goals)
        {
            json.WriteStartArray("end");
            foreach (var goal in goals)
            {
                json.WriteStartArray();
                foreach (var part in goal.Parts)
                {
                    json.WriteStartArray();
                    Write(json, part.Scale, variables);
                    Write(json, part.Refutation, variables);
                    json.WriteEndArray();
                }
                json.WriteEndArray();
            }
            json.WriteEndArray();
        }
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Refutation refutation, Variables variables)
    {
        json.WriteStartArray();
        foreach (var addend in refutation.Addends)
        {
            json.WriteStartArray();
            Write(json, addend.Factor, variables);
            foreach (var fact in addend.Facts)
            {
                json.WriteNumberValue(fact);
            }
            json.WriteEndArray();
        }
        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, Form form, Variables variables)
    {
        json.WriteStartArray();
        foreach (
            var (monomial, factor) in form
                .Parts.OrderBy(p => p.Product.Factors)
                .ThenBy(p => p.Product.N)
                .ThenBy(p => p.Product.I)
        )
        {
            json.WriteStartArray();
            json.WriteStringValue(factor.ToString());
            json.WriteNumberValue(monomial.N);
            json.WriteNumberValue(monomial.I);
            foreach (var variable in monomial.Variables)
            {
                json.WriteStringValue(variables[variable]);
            }
            json.WriteEndArray();
        }
        json.WriteEndArray();
    }
}
