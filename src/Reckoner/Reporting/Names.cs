using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Spoken names, from the description in the reader's language, or the bare name where there is no phrase.</summary>
internal static class Names
{
    /// <summary>A machine by its name, with its widths and with the slip where it has one.</summary>
    public static string Of(Datapath datapath, Vocabulary words) =>
        Of(datapath.Machine.Name, WidthText.Of(datapath.Widths), datapath.Machine.Slip, words);

    public static string Of(string machine, string widths, string? slip, Vocabulary words)
    {
        var name = words.Say("walk.at", ("machine", machine), ("widths", widths));
        return slip is null ? name : words.Say("walk.with-slip", ("name", name), ("slip", slip));
    }

    /// <summary>The widths, with the slip where the machine has one, for where its name is said otherwise.</summary>
    public static string Widths(Datapath datapath, Vocabulary words)
    {
        var widths = WidthText.Of(datapath.Widths);
        return datapath.Machine.Slip is { } slip
            ? words.Say("walk.with-slip", ("name", widths), ("slip", slip))
            : widths;
    }

    public static string Of(Register register, Vocabulary words) =>
        register.Phrase?.In(words.Language) ?? register.Name;

    public static string Of(Part part, Vocabulary words) => part.Phrase?.In(words.Language) ?? part.Name;

    /// <summary>A place of a transfer; bits of a register or part are named by their places there.</summary>
    public static string Of(Place place, Vocabulary words)
    {
        var name = place.Part is null ? Of(place.Register, words) : Of(place.Part, words);
        if (place.Written is not Sliced)
        {
            return name;
        }
        var low = place.Low - (place.Part?.Low ?? 0);
        return place.Width == 1
            ? words.Say("walk.place", ("name", name), ("place", low))
            : words.Say("walk.places", ("name", name), ("high", low + place.Width - 1), ("low", low));
    }

    public static string Of(IReadOnlyList<Place> places, Vocabulary words) =>
        string.Join(words.Say("walk.between-names"), places.Select(p => Of(p, words)));
}
