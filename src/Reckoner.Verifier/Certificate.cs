using System.Text.Json;

namespace Reckoner.Verifier;

/// <summary>Reads what stands in a certificate; whatever is not as it should be is refused.</summary>
internal static class Certificate
{
    public const int Format = 1;
    private const int MostBytes = 10_000_000;
    private const int MostDepth = 400;
    private const int MostPower = 10_000;

    /// <summary>Variables multiplied in one part.</summary>
    private const int MostVariables = 16;

    public static JsonDocument Read(string text)
    {
        if (text.Length > MostBytes)
        {
            throw new RefusedException(Refusal.TooLong, "");
        }
        try
        {
            return JsonDocument.Parse(text, new JsonDocumentOptions { MaxDepth = MostDepth });
        }
        // Half a surrogate pair is no JSON either, and told as an argument.
        catch (Exception e) when (e is JsonException or ArgumentException)
        {
            throw new RefusedException(Refusal.Unreadable, "");
        }
    }

    public static JsonElement? Find(JsonElement node, string name) =>
        Decoded(() =>
            node.ValueKind == JsonValueKind.Object && node.TryGetProperty(name, out var found)
                ? found
                : (JsonElement?)null
        );

    /// <summary>Written as an escape, half a surrogate pair is found only where the text is asked for.</summary>
    private static T Decoded<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (InvalidOperationException)
        {
            throw new RefusedException(Refusal.Unreadable, "text");
        }
    }

    public static JsonElement Get(JsonElement node, string name) =>
        Find(node, name) ?? throw new RefusedException(Refusal.Unreadable, name);

    public static IReadOnlyList<JsonElement> List(JsonElement node) =>
        node.ValueKind == JsonValueKind.Array
            ? [.. node.EnumerateArray()]
            : throw new RefusedException(Refusal.Unreadable, "list");

    public static IReadOnlyList<JsonElement> AtMost(int most, IReadOnlyList<JsonElement> list) =>
        list.Count <= most ? list : throw new RefusedException(Refusal.TooLong, "list");

    public static JsonElement At(JsonElement node, int index) =>
        List(node) is var list && index < list.Count
            ? list[index]
            : throw new RefusedException(Refusal.Unreadable, "list");

    public static string Text(JsonElement node) =>
        node.ValueKind == JsonValueKind.String
            ? Decoded(() => node.GetString()!)
            : throw new RefusedException(Refusal.Unreadable, "text");

    private static string Name(JsonElement node) =>
        Text(node) is { Length: > 0 } name && !name.Contains(';', StringComparison.Ordinal)
            ? name
            : throw new RefusedException(Refusal.Unreadable, "name");

    public static int Number(JsonElement node) =>
        node.ValueKind == JsonValueKind.Number && node.TryGetInt32(out var number)
            ? number
            : throw new RefusedException(Refusal.Unreadable, "number");

    private static int Power(JsonElement node) =>
        Number(node) is var power and >= -MostPower and <= MostPower
            ? power
            : throw new RefusedException(Refusal.TooLong, "power");

    /// <summary>[n, i, number].</summary>
    public static Size Size(JsonElement node) => new(Power(At(node, 0)), Power(At(node, 1)), Power(At(node, 2)));

    /// <summary>A list of ["factor", n, i, "variable" ...].</summary>
    public static Poly Poly(JsonElement node)
    {
        var sum = Verifier.Poly.Zero;
        foreach (var part in AtMost(Verifier.Poly.MostParts, List(node)))
        {
            var items = AtMost(3 + MostVariables, List(part));
            if (items.Count < 3)
            {
                throw new RefusedException(Refusal.Unreadable, "part");
            }
            var variables = items.Skip(3).Select(Name).Order(StringComparer.Ordinal).Select(n => n + ";");
            sum += Verifier.Poly.Of(
                new(Power(items[1]), Power(items[2]), string.Concat(variables)),
                Fraction.Read(Text(items[0]))
            );
        }
        return sum;
    }
}
