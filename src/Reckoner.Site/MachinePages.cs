using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Choosing;
using Reckoner.Datapaths;
using Reckoner.Drawing;
using Reckoner.Notation;
using Reckoner.Numbers;
using Reckoner.Questions;
using Reckoner.Reporting;
using Reckoner.Words;

namespace Reckoner.Site;

/// <summary>A page for each machine of the catalogue: description, hardware, a walk, cost, slips; and one with all of them.</summary>
internal static class MachinePages
{
    public const string Index = "machines/index.html";

    /// <summary>The page as one file, where it is there.</summary>
    public const string Program = "page.html";

    /// <summary>Narrow enough that a figure is seen whole, wide enough to show something.</summary>
    private const int Width = 4;

    /// <summary>So many operand bits are tried with every slip.</summary>
    private const int MostTriedBits = 8;

    private const int SlipsShown = 5;

    private static readonly Vocabulary Words = Vocabulary.English;
    private static readonly Means Means = new(new InterpretedRunner(), () => TimeSpan.Zero);

    public static IReadOnlyList<SitePage> Of(SiteFolder site)
    {
        var machines = MachineCatalogue
            .Entries.Select(e => (Entry: e, Machine: Machine.Read(e.Source, MachineCatalogue.Find)))
            .ToList();
        return [List(machines), .. machines.Select(m => Page(m.Machine, site))];
    }

    private static SitePage List(IReadOnlyList<(CatalogueEntry Entry, Machine Machine)> machines)
    {
        var families = machines
            .GroupBy(m => m.Entry.Family)
            .Select(f =>
                $"<h2>{Escaped(Words.Say($"family.{f.Key}"))}</h2>\n<ul>\n{string.Join("\n", f.Select(Item))}\n</ul>"
            );
        var title = Words.Say("site.machines");
        return new SitePage(Index, title, $"<h1>{Escaped(title)}</h1>\n{string.Join("\n", families)}", []);

        static string Item((CatalogueEntry Entry, Machine Machine) m) =>
            $"<li><a href=\"{m.Entry.Name}.html\">{m.Entry.Name}</a><br>{Escaped(m.Machine.Title?.Text ?? "")}</li>";
    }

    private static SitePage Page(Machine machine, SiteFolder site)
    {
        var title = machine.Title?.Text ?? machine.Name;
        var notes = machine.Notes.Select(n => n.Text).ToList();
        List<string> parts =
        [
            $"<h1>{Escaped(title)}</h1>",
            .. notes.Select(n => $"<p>{Escaped(n)}</p>"),
            $"<p><a href=\"../{Program}#machine={machine.Name}\">{Escaped(Words.Say("site.open"))}</a></p>",
        ];
        if (Bound(machine) is { } datapath)
        {
            Figure(parts, site, datapath, "blocks", [], "site.blocks");
            Figure(
                parts,
                site,
                datapath,
                "weave",
                [.. DefaultOperands.Of(datapath).Select(AskedOperand.Read)],
                "site.weave"
            );
            if (new CostQuestion([datapath]).Ask().Data is { } cost)
            {
                parts.Add(
                    $"<h2>{Escaped(Words.Say("site.cost", ("widths", WidthText.Of(datapath.Widths))))}</h2>\n{Html.BelowTitle(CostDocument.Of(cost, Words))}"
                );
            }
            Slips(parts, datapath);
        }
        var text = Printer.Text(machine.Description);
        parts.Add($"<h2>{Escaped(Words.Say("site.description"))}</h2>\n<pre><code>{Escaped(text)}</code></pre>");
        var found = new SiteSection("", title, $"{machine.Name} {string.Join(' ', notes)}");
        return new SitePage($"machines/{machine.Name}.html", title, string.Join("\n", parts), [found]);
    }

    /// <summary>At a width that can be seen, or at its own.</summary>
    private static Datapath? Bound(Machine machine) =>
        new AskedMachine(machine) { Widths = Width }
            .Bind()
            .Data
        ?? new AskedMachine(machine).Bind().Data;

    private static void Figure(
        List<string> parts,
        SiteFolder site,
        Datapath datapath,
        string view,
        IReadOnlyList<AskedOperand> operands,
        string key
    )
    {
        var question = new DrawQuestion([datapath], View.All.First(v => v.Name == view), Words)
        {
            Operands = operands,
            Anyway = true,
        };
        if (question.Ask(Means).Data?.Pages().FirstOrDefault() is not [var scene, ..])
        {
            return;
        }
        var name = $"{datapath.Machine.Name}-{view}";
        site.Write($"machines/{name}.svg", SvgWriter.Write(scene, Palette.Light));
        site.Write($"machines/{name}-dark.svg", SvgWriter.Write(scene, Palette.Dark));
        var widths = string.Join(", ", datapath.Widths.Select(w => $"{w.Name} = {w.Value}"));
        var said = Escaped(Words.Say(key, ("widths", widths)));
        parts.Add(
            $"""
            <h2>{said}</h2>
            <picture><source media="(prefers-color-scheme: dark)" srcset="{name}-dark.svg"><img class="own" src="{name}.svg" alt="{said}"></picture>
            """
        );
    }

    /// <summary>Those that the fewest operands expose.</summary>
    private static void Slips(List<string> parts, Datapath datapath)
    {
        if (datapath.Operands.Sum(o => o.Width) > MostTriedBits)
        {
            return;
        }
        var study = new SlipsQuestion(new AskedMachine(datapath)) { AsksConditions = false }
            .Ask(Means)
            .Data;
        var shown = study?.Slips.Where(s => s.Smallest is not null).OrderBy(s => s.Exposed).Take(SlipsShown).ToList();
        if (shown is not { Count: > 0 })
        {
            return;
        }
        parts.Add($"<h2>{Escaped(Words.Say("site.slips", ("widths", WidthText.Of(datapath.Widths))))}</h2>\n<ul>");
        foreach (var slip in shown)
        {
            var smallest = string.Join(
                ", ",
                datapath.Operands.Zip(slip.Smallest!, (o, bits) => $"{o.Name} = {o.Number(bits)}")
            );
            var exposed = Words.Say(
                "site.exposed",
                ("count", slip.Exposed),
                ("cases", study!.Cases),
                ("smallest", smallest)
            );
            parts.Add($"<li>{Escaped(SlipText.Sentence(slip.Slip, Words))} {Escaped(exposed)}</li>");
        }
        parts.Add("</ul>");
    }

    private static string Escaped(string text) => PageFrame.Escaped(text);
}
