using Reckoner.Running;

namespace Reckoner.Tests;

/// <summary>Reads a walk as a table does.</summary>
internal static class WalkPlace
{
    /// <summary>A register, part or named value, or places of it (A[3..0]), at a cycle, or inside it at cycle.moment, in binary.</summary>
    public static string Bits(Walk walk, string place, string name)
    {
        if (name.Split('[', ']') is [var whole, var places, _])
        {
            var ends = places.Split("..").Select(int.Parse).ToList();
            var word = Bits(walk, place, whole);
            return word[(word.Length - 1 - ends[0])..(word.Length - ends[^1])];
        }
        var parts = place.Split('.');
        var row = walk.Rows[int.Parse(parts[0])];
        var moment = parts.Length == 2 ? row.Moments[int.Parse(parts[1]) - 1] : row.Moments[^1];
        if (walk.Datapath.Registers.FirstOrDefault(r => r.Name == name) is { } register)
        {
            return Numbers.Bits.Text(moment.Registers[register.Index], register.Width);
        }
        if (walk.Datapath.Registers.SelectMany(r => r.Parts).FirstOrDefault(p => p.Name == name) is { } part)
        {
            return Numbers.Bits.Text(
                Numbers.Bits.Wrap(moment.Registers[part.Register.Index] >> part.Low, part.Width),
                part.Width
            );
        }
        var value = moment.Values.Single(v => v.Wire.Name == name);
        return Numbers.Bits.Text(value.Bits, value.Wire.Value.Width);
    }
}
