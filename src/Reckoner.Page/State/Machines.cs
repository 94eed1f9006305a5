using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Datapaths;
using Reckoner.Slips;

namespace Reckoner.Page.State;

/// <summary>Machines beside that of the sheet.</summary>
public static class Machines
{
    private const string SlipMark = "slip:";

    /// <summary>The name under which a slip of the sheet's machine stands beside it.</summary>
    public static string NameOf(Slip slip) => SlipMark + slip.Name;

    /// <summary>The slip that stands beside under a name; null where it is a machine of the catalogue.</summary>
    public static string? SlipOf(string beside) =>
        beside.StartsWith(SlipMark, StringComparison.Ordinal) ? beside[SlipMark.Length..] : null;

    /// <summary>The machine that a sheet names beside its own: one of the catalogue, or a slip; null where there is none.</summary>
    public static IMachine? Beside(Sheet sheet, IMachine machine) =>
        SlipOf(sheet.Beside) is not null ? Slip.Of(machine).FirstOrDefault(s => NameOf(s) == sheet.Beside)?.Machine
        : MachineCatalogue.Find(sheet.Beside) is { } source ? Machine.Read(source, MachineCatalogue.Find)
        : null;

    /// <summary>The versions that a text is held against: that beside it, what it began as, what it follows; each once.</summary>
    public static IEnumerable<IMachine> Versions(Sheet sheet, IMachine machine)
    {
        var versions = new List<IMachine>();
        if (Beside(sheet, machine) is { } beside)
        {
            versions.Add(beside);
        }
        for (var before = Before(sheet, machine); before is not null; before = before.Followed)
        {
            versions.Add(before);
        }
        return versions.DistinctBy(v => (v.Hash, v.Slip));
    }

    /// <summary>The machine that a sheet began as, if its text is another by now; else the one that it follows.</summary>
    public static IMachine? Before(Sheet sheet, IMachine machine) =>
        !sheet.IsOriginal && MachineCatalogue.Find(sheet.Origin) is { } source
            ? Machine.Read(source, MachineCatalogue.Find)
            : machine.Followed;
}
