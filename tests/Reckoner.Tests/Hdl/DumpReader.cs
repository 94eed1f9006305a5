using System.Numerics;

namespace Reckoner.Tests.Hdl;

/// <summary>Reads a dump of value changes as far as tests need it: what every variable is just behind each rise of the clock.</summary>
/// <param name="Edges">By name; a whole number, or x where a bit is not known.</param>
internal sealed record DumpReader(IReadOnlyList<IReadOnlyDictionary<string, string>> Edges)
{
    public static DumpReader Read(string text)
    {
        var names = new Dictionary<string, List<string>>();
        var now = new Dictionary<string, string>();
        var edges = new List<IReadOnlyDictionary<string, string>>();
        var rises = false;
        var words = text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        for (var i = 0; i < words.Length; i++)
        {
            switch (words[i])
            {
                case "$var":
                    names.TryAdd(words[i + 3], []);
                    names[words[i + 3]].Add(words[i + 4]);
                    i = Array.IndexOf(words, "$end", i);
                    break;
                case "$comment" or "$timescale" or "$scope" or "$upscope" or "$enddefinitions" or "$date" or "$version":
                    i = Array.IndexOf(words, "$end", i);
                    break;
                case "$dumpvars" or "$end":
                    break;
                case ['#', ..]:
                    End();
                    break;
                case ['b', .. var digits]:
                    Set(words[++i], digits);
                    break;
                case [var digit, .. var sign]:
                    Set(sign, $"{digit}");
                    break;
            }
        }
        End();
        return new DumpReader(edges);

        void Set(string sign, string digits)
        {
            var number = digits.Aggregate((BigInteger?)0, (n, d) => d is '0' or '1' ? n * 2 + (d - '0') : null);
            foreach (var name in names[sign])
            {
                var value = number?.ToString() ?? "x";
                rises |= name == "clock" && value == "1" && now.GetValueOrDefault(name) == "0";
                now[name] = value;
            }
        }

        void End()
        {
            if (rises)
            {
                edges.Add(new Dictionary<string, string>(now));
            }
            rises = false;
        }
    }
}
