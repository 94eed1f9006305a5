using System.Globalization;
using System.Text;
using Reckoner.Checking;
using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Documents.Lessons;
using Reckoner.Drawing;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;

namespace Reckoner.Cli;

internal static class DrawVerb
{
    private const int MostCells = 50_000;

    /// <summary>With so many operand bits, asking every operand in every cycle takes no time that anybody notices.</summary>
    private const int MostCaseBits = 12;

    public static int Run(Session session, Request request)
    {
        if (FigureForm.Of(request) is not { } form)
        {
            return session.Refuse(request);
        }
        if (StyleFile.Of(session, request) is not { } house)
        {
            return Exit.Wrong;
        }
        var palette = Chosen(request, Option.Ground, Palette.All, p => p.Name);
        var text = Chosen(request, Option.Text, Enum.GetValues<TextForm>(), f => f.ToString().ToLowerInvariant());
        return Ask(session, request, house) switch
        {
            StillFigure still => Write(
                session,
                request,
                form,
                [still.Drawn],
                palette!,
                text,
                still.Holds ? Exit.Done : Exit.DoesNotHold
            ),
            WalkFigure { Figure: var figure, View: var view } => Write(
                session,
                request,
                form,
                Figures(request, view, figure),
                palette!,
                text,
                figure.Walk.Holds ? Exit.Done : Exit.DoesNotHold
            ),
            _ => Exit.Wrong,
        };
    }

    /// <summary>How digits and sums by hand are to be written: the house style, and what options say otherwise.</summary>
    private sealed record Manner(HouseStyle Style, int? Base, HandLayout? Layout)
    {
        public static Manner Of(Request request, HouseStyle style)
        {
            var number = Chosen(request, Option.Base, Digits.Bases, b => $"{b}");
            var layouts = Enum.GetValues<HandLayout>();
            var layout = Chosen(request, Option.Layout, layouts, l => l.ToString().ToLowerInvariant());
            return new Manner(
                style,
                request.Has(Option.Base) ? number : null,
                request.Has(Option.Layout) ? layout : null
            );
        }
    }

    /// <summary>A figure of several machines; null when something is wrong, which has been said.</summary>
    private static StillFigure? Several(Session session, Request request, View view)
    {
        if (view.OfSeveral is not { } draws)
        {
            var several = View.All.Where(v => v.OfSeveral is not null).Select(v => v.Name).ToList();
            request.Report.Add(
                Id.ViewOfOne,
                request.Machines[1].Span,
                ("view", view.Name),
                ("found", request.Machines.Count),
                ("views", several)
            );
            session.Refuse(request);
            return null;
        }
        return CompareVerb.Ask(session, request) is { } asked
            ? new StillFigure(view, draws(asked.Datapaths, session.Words)) { Holds = asked.Walks.All(w => w.Holds) }
            : null;
    }

    /// <summary>Without operands there is no walk, and nothing of a walk can be asked for.</summary>
    private static bool IsStill(Request request) =>
        request.Operands.Count == 0
        && !new[] { Option.Cycle, Option.From, Option.To, Option.OneByOne, Option.Blank }.Any(request.Has);

    private static int Write(
        Session session,
        Request request,
        FigureForm form,
        IEnumerable<IReadOnlyList<Scene>> figures,
        Palette palette,
        TextForm text,
        int done
    )
    {
        var files = form.Files(figures).ToList();
        if (request[Option.Output] is not { } file)
        {
            if (files.Count == 1)
            {
                return session.Write(request, Encoding.UTF8.GetString(form.Write(files[0], palette, text)), done);
            }
            request.Report.Add(Id.OutputMissing, request.View!.Value.Span, ("option", request.View!.Value.Text));
            return session.Refuse(request);
        }
        var written = Files(file.Text, [.. files.Select(f => form.Write(f, palette, text))]);
        return OutputFile.Write(request, file, written) ? done : session.Refuse(request);
    }

    /// <summary>The figure that is asked for; null when something is wrong, which has been said.</summary>
    public static FigureAnswer? Ask(Session session, Request request, HouseStyle house)
    {
        var view = ReadView(request);
        var manner = Manner.Of(request, house);
        if (view is not null)
        {
            RefuseIdle(request, view);
        }
        if (request.Report.HasErrors)
        {
            session.Refuse(request);
            return null;
        }
        if (request.Machines.Count > 1)
        {
            return Several(session, request, view!);
        }
        if (view!.Still is not null && IsStill(request))
        {
            return Still(session, request, view) is { } scenes ? new StillFigure(view, scenes) : null;
        }
        return
            RequestedWalk.Of(session, request).Walk is { } walk
            && ReadFigure(session, request, view, walk, manner) is { } figure
            ? new WalkFigure(view, figure)
            : null;
    }

    /// <summary>Options that change nothing in a view, by its name.</summary>
    private static readonly IReadOnlyList<(string View, IReadOnlyList<Option> Idle)> OptionsWithoutEffect =
    [
        ("weave", [Option.Base, Option.Layout]),
        ("datapath", [Option.Base, Option.Layout]),
        ("paper", [Option.From]),
        ("table", [Option.Layout]),
        (
            "comparison",
            [Option.Cycle, Option.From, Option.To, Option.OneByOne, Option.Blank, Option.Base, Option.Layout]
        ),
    ];

    private static void RefuseIdle(Request request, View view)
    {
        foreach (var option in OptionsWithoutEffect.Single(o => o.View == view.Name).Idle)
        {
            if (request[option] is { } word)
            {
                request.Report.Add(
                    Id.OptionOfOtherView,
                    word.Span,
                    ("option", option.Name),
                    ("view", view.Name),
                    ("views", OptionsWithoutEffect.Where(o => !o.Idle.Contains(option)).Select(o => o.View).ToList())
                );
            }
        }
    }

    /// <summary>What is drawn of a machine at rest; null when something is wrong, which has been said.</summary>
    private static IReadOnlyList<Scene>? Still(Session session, Request request, View view)
    {
        if (MachineFiles.Bind(session, request, remarks: true).Datapath is not { } datapath)
        {
            return null;
        }
        if (!view.SuitsStill(datapath))
        {
            Unsuited(request, view, datapath, View.All.Where(v => v.Still is not null && v.SuitsStill(datapath)));
            session.Refuse(request);
            return null;
        }
        return view.Still!(datapath, session.Words);
    }

    private static View? ReadView(Request request)
    {
        var names = View.All.Select(v => v.Name).ToList();
        if (request.View is not { } word)
        {
            request.Report.Add(Id.ViewMissing, request.Whole, ("views", names));
            return null;
        }
        var view = View.All.FirstOrDefault(v => v.Name == word.Text);
        if (view is null)
        {
            request.Report.Add(
                Id.UnknownView,
                word.Span,
                ("word", word.Text),
                ("views", names),
                ("near", NearNames.Of(word.Text, names))
            );
        }
        return view;
    }

    /// <summary>The one that an option names, or the first.</summary>
    private static T? Chosen<T>(Request request, Option option, IReadOnlyList<T> all, Func<T, string> name)
    {
        if (request[option] is not { } word)
        {
            return all[0];
        }
        var names = all.Select(name).ToList();
        if (names.IndexOf(word.Text) is var index and >= 0)
        {
            return all[index];
        }
        request.Report.Add(
            Id.OptionValue,
            word.Span,
            ("option", option.Name),
            ("value", word.Text),
            ("known", names),
            ("near", NearNames.Of(word.Text, names))
        );
        return default;
    }

    /// <summary>Null when something is wrong; it has been said.</summary>
    private static Figure? ReadFigure(Session session, Request request, View view, Walk walk, Manner manner)
    {
        if (request[Option.Cycle] is { } one && (request[Option.From] ?? request[Option.To]) is not null)
        {
            var other = request.Has(Option.From) ? Option.From : Option.To;
            request.Report.Add(Id.OptionsClash, one.Span, ("first", Option.Cycle.Name), ("second", other.Name));
        }
        var cycle = Cycle(request, Option.Cycle, walk);
        var from = cycle is { } only ? view.FirstWith(only) : Cycle(request, Option.From, walk) ?? 0;
        var to = cycle ?? Cycle(request, Option.To, walk) ?? walk.Cycles;
        if (from > to)
        {
            var place = request[Option.From] ?? request[Option.To]!.Value;
            request.Report.Add(Id.CyclesTurned, place.Span, ("from", from), ("to", to));
        }
        if (!view.Suits(walk))
        {
            Unsuited(request, view, walk.Datapath, View.All.Where(v => v.Suits(walk)));
        }
        var cells = (long)(to - from + 1) * walk.Datapath.Registers.Sum(r => r.Width);
        if (cells > MostCells)
        {
            request.Report.Add(Id.FigureTooLarge, request.Whole, ("cells", cells), ("limit", MostCells));
        }
        if (request.Has(Option.OneByOne) && request[Option.Output] is null)
        {
            request.Report.Add(
                Id.OutputMissing,
                request[Option.OneByOne]!.Value.Span,
                ("option", Option.OneByOne.Name)
            );
        }
        if (request.Report.HasErrors)
        {
            session.Refuse(request);
            return null;
        }
        var idle = view.ShowsIdle ? Idle(walk.Datapath) : null;
        var figure = new Figure(walk, session.Words, from, to, to, request.Has(Option.Blank), idle)
        {
            Style = manner.Style,
            Base = manner.Base,
            Layout = manner.Layout,
        };
        if (view.Lacks(figure) is { Count: > 0 } lacking)
        {
            session.Refuse(lacking);
            return null;
        }
        return figure;
    }

    private static void Unsuited(Request request, View view, Datapath datapath, IEnumerable<View> others) =>
        request.Report.Add(
            Id.ViewUnsuited,
            request.View!.Value.Span,
            ("view", view.Name),
            ("machine", datapath.Machine.Name),
            ("views", others.Select(v => v.Name).ToList())
        );

    private static int? Cycle(Request request, Option option, Walk walk)
    {
        if (request[option] is not { } word)
        {
            return null;
        }
        if (OperandReader.Number(word.Text) is not { } number)
        {
            Plan.Refuse(request, option, word);
            return null;
        }
        if (number < 0 || number > walk.Cycles)
        {
            request.Report.Add(Id.NoSuchCycle, word.Span, ("cycle", number), ("last", walk.Cycles));
            return null;
        }
        return (int)number;
    }

    /// <summary>Over all operands where that takes no time, else by structure.</summary>
    private static IdleStudy Idle(Datapath datapath) =>
        (
            datapath.Operands.Sum(o => o.Width) <= MostCaseBits
                ? Checking.Idle.OverAll(datapath, InterpretedEngine.Widest)
                : null
        ) ?? IdleByStructure.Of(datapath);

    /// <summary>The pages of the whole figure, or those of each moment as it grows.</summary>
    private static IEnumerable<IReadOnlyList<Scene>> Figures(Request request, View view, Figure figure) =>
        request.Has(Option.OneByOne)
            ? Enumerable
                .Range(figure.From, figure.To - figure.From + 1)
                .Select(cycle => view.Draws(figure with { From = view.Grows ? figure.From : cycle, Until = cycle }))
            : [view.Draws(figure)];

    /// <summary>One file keeps its name; of several, each has its number before the ending: weave-03.svg.</summary>
    private static List<(string Path, byte[] Bytes)> Files(string path, List<byte[]> pages)
    {
        var digits = (pages.Count - 1).ToString(CultureInfo.InvariantCulture).Length;
        return
        [
            .. pages.Select(
                (bytes, i) =>
                    (
                        pages.Count == 1
                            ? path
                            : Path.Combine(
                                Path.GetDirectoryName(path) ?? "",
                                $"{Path.GetFileNameWithoutExtension(path)}-{i.ToString($"D{digits}", CultureInfo.InvariantCulture)}{Path.GetExtension(path)}"
                            ),
                        bytes
                    )
            ),
        ];
    }
}
