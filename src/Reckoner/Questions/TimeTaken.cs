using System.Globalization;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>A time that something would take, as a fact.</summary>
internal static class TimeTaken
{
    public static Term Of(double seconds) =>
        seconds < 120 ? About(Number(seconds, "0") + " s")
        : seconds < 7200 ? About(Number(seconds / 60, "0") + " min")
        : seconds < 172_800 ? About(Number(seconds / 3600, "0") + " h")
        : seconds < 6e8 ? About(new Term("check.days", ("count", Number(seconds / 86_400, "#,0"))))
        : seconds < 3e13 ? About(new Term("check.years", ("count", Number(seconds / 31_557_600, "#,0"))))
        : new Term("check.million-years");

    private static Term About(object time) => new("check.about", ("time", time));

    private static string Number(double number, string format) => number.ToString(format, CultureInfo.InvariantCulture);
}
