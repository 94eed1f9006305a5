using System.Globalization;
using Reckoner.Bench;

// "rate ENGINE MACHINE WIDTH" measures one engine for the tables; without arguments all tables are made.
if (args is ["rate", var engine, var machine, var width])
{
    Console.WriteLine(Rate.Of(engine, machine, int.Parse(width)).ToString(CultureInfo.InvariantCulture));
    return 0;
}
if (args is ["--figures"])
{
    FigureTable.Print();
    return 0;
}
if (args is ["--graphics"])
{
    GraphicsTable.Print();
    return 0;
}
if (args is ["--graphics-start"])
{
    GraphicsStart.Print();
    return 0;
}
if (args is ["--lessons" or "--start"])
{
    var place = Directory.CreateTempSubdirectory("reckoner-bench").FullName;
    (args[0] == "--start" ? StartTable.Print : (Action<string, string>)LessonTable.Print)(
        WholeProcess.Command()!,
        place
    );
    Directory.Delete(place, recursive: true);
    return 0;
}
if (args is ["--refine"])
{
    RefineTable.Print();
    return 0;
}
if (args is ["--marks"])
{
    MarkTable.Print();
    return 0;
}
if (args is ["--guesses", var proposals])
{
    GuessTable.Print(proposals);
    return 0;
}
var onlySlips = args is ["--slips"];
if (
    args is not ([] or ["--rounds", _] or ["--slips"])
    || (args is [_, var text] && !(int.TryParse(text, out var n) && n > 0))
)
{
    Console.Error.WriteLine(
        "bench: say nothing, or --rounds and how often each is measured, such as --rounds 5, or --slips, --figures, --lessons, --start, --graphics, --graphics-start, --refine, --marks, --guesses FILE."
    );
    return 2;
}
var rounds = args is [_, var count] ? int.Parse(count) : 3;
var folder = Directory.CreateTempSubdirectory("reckoner-bench").FullName;
try
{
    if (!onlySlips)
    {
        Tables.Print(Baselines.Compiled(folder), rounds);
    }
    SlipTable.Print(folder);
    if (!onlySlips)
    {
        FigureTable.Print();
    }
}
finally
{
    Directory.Delete(folder, recursive: true);
}
return 0;
