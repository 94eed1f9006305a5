using System.Buffers.Binary;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Notation;

namespace Reckoner.Slips;

/// <summary>One thing forgotten or done otherwise in a description. A slip is itself a machine.</summary>
/// <param name="Name">Kind, what it is done to, and a number where that is not enough; stable when other lines change.</param>
/// <param name="Kind">Its sentence is "slip.KIND" of the message table.</param>
/// <param name="Line">The line it happens on.</param>
public sealed record Slip(string Name, string Kind, int Line, IReadOnlyList<Fact> Facts, IMachine Machine)
{
    /// <summary>
    /// Every single slip of a machine's own text that changes it, in the order of the text. Whether one can be built at chosen
    /// widths shows when it is.
    /// </summary>
    public static IReadOnlyList<Slip> Of(IMachine machine)
    {
        var texts = new HashSet<UInt128> { Mark(machine.Description) };
        var slips = new List<Slip>();
        var numbers = new Dictionary<string, int>();
        var names = new HashSet<string>();
        foreach (var edit in DescriptionSlips.Of(machine.Description).OrderBy(e => e.Place.Start))
        {
            if (!texts.Add(Mark(edit.Node)))
            {
                continue;
            }
            var name = $"{edit.Kind}-{Plain(edit.Subject)}".TrimEnd('-');
            string numbered;
            do
            {
                // The second slip of X is called as the first of X[2] would be.
                var number = numbers[name] = numbers.GetValueOrDefault(name) + 1;
                numbered = number == 1 ? name : string.Create(CultureInfo.InvariantCulture, $"{name}-{number}");
            } while (!names.Add(numbered));
            var line = machine.Description.Source.LineOf(edit.Place.Start);
            slips.Add(new Slip(numbered, edit.Kind, line, edit.Facts, machine.With(edit.Node, numbered)));
        }
        return slips;
    }

    /// <summary>How many slips there may be at most: of several that come to the same text one counts.</summary>
    public static int Most(IMachine machine) => DescriptionSlips.Of(machine.Description).Count();

    /// <summary>Tells texts apart without keeping all of them, each as long as the whole.</summary>
    private static UInt128 Mark(Description description)
    {
        var text = Printer.Text(description, comments: false);
        return BinaryPrimitives.ReadUInt128LittleEndian(SHA256.HashData(MemoryMarshal.AsBytes(text.AsSpan())));
    }

    /// <summary>Letters and digits, everything else a hyphen, so that a name needs no quoting on a command line.</summary>
    private static string Plain(string subject)
    {
        var plain = new StringBuilder();
        foreach (var c in subject)
        {
            if (char.IsLetterOrDigit(c) || c == '_')
            {
                plain.Append(c);
            }
            else if (plain.Length > 0 && plain[^1] != '-')
            {
                plain.Append('-');
            }
        }
        return plain.ToString().Trim('-');
    }
}
