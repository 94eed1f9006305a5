using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Drawing;
using Reckoner.Questions;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Tables;
using Reckoner.Words;

namespace Reckoner.Cli;

internal static partial class Asking
{
    private static readonly HandLayout[] Layouts = Enum.GetValues<HandLayout>();

    public static DrawQuestion? Draw(Request request, HouseStyle style, Vocabulary words)
    {
        var view = ReadView(request);
        var digits = Chosen(request, Option.Base, Digits.Bases, b => $"{b}");
        var styled = Styled(request, style);
        var layout = Chosen(request, Option.Layout, Layouts, l => l.ToString().ToLowerInvariant());
        var (cycle, from, to) = (Cycle(request, Option.Cycle), Cycle(request, Option.From), Cycle(request, Option.To));
        var target = Target(request);
        var adders = AdderWords.Read(request);
        RefuseStretch(request);
        if (view is not null)
        {
            RefuseIdle(request, view);
        }
        if (request.Report.HasErrors || Machines(request, view!) is not { } machines)
        {
            return null;
        }
        return new DrawQuestion(machines, view!, words)
        {
            Operands = Operands(request),
            Anyway = request.Has(Option.Anyway),
            Cycle = cycle,
            From = from,
            To = to,
            IsOneByOne = request.Has(Option.OneByOne),
            IsBlank = request.Has(Option.Blank),
            Style = styled!,
            Base = request.Has(Option.Base) ? digits : null,
            Layout = request.Has(Option.Layout) ? layout : null,
            Target = target,
            Adders = adders,
            WithInvariant = request.Has(Option.Invariant),
        };
    }

    private static List<AskedMachine>? Machines(Request request, View view)
    {
        if (
            request.Machines.Count > 1
            && DrawQuestion.Count(view, request.Machines.Count, request.Verb!.Name) is { } wrong
        )
        {
            // Before files are read that would not be drawn.
            Placing.Report([wrong], request);
            return null;
        }
        return request.Machines.Count > 1 ? Machines(request)
            : Machine(request) is { } machine ? [machine]
            : null;
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

    /// <summary>The word for something that can be asked of a figure.</summary>
    private static Option OptionOf(FigureOption option) =>
        option switch
        {
            FigureOption.Cycle => Option.Cycle,
            FigureOption.From => Option.From,
            FigureOption.To => Option.To,
            FigureOption.OneByOne => Option.OneByOne,
            FigureOption.Blank => Option.Blank,
            FigureOption.Base => Option.Base,
            FigureOption.Layout => Option.Layout,
            FigureOption.Reasons => Option.Reasons,
            FigureOption.Size => Option.Size,
            FigureOption.Invariant => Option.Invariant,
            FigureOption.Adder => Option.Adder,
        };

    private static void RefuseIdle(Request request, View view)
    {
        foreach (var idle in Enum.GetValues<FigureOption>().Except(view.Takes))
        {
            if (request[OptionOf(idle)] is { } word)
            {
                request.Report.Add(
                    Id.OptionOfOtherView,
                    word.Span,
                    ("option", OptionOf(idle).Name),
                    ("view", view.Name),
                    ("views", View.All.Where(v => v.Takes.Contains(idle)).Select(v => v.Name).ToList())
                );
            }
        }
    }

    /// <summary>One cycle is no stretch, and figures one by one are files.</summary>
    private static void RefuseStretch(Request request)
    {
        if (request[Option.Cycle] is { } one && (request[Option.From] ?? request[Option.To]) is not null)
        {
            var other = request.Has(Option.From) ? Option.From : Option.To;
            request.Report.Add(Id.OptionsClash, one.Span, ("first", Option.Cycle.Name), ("second", other.Name));
        }
        if (request[Option.OneByOne] is { } word && request[Option.Output] is null)
        {
            request.Report.Add(Id.OutputMissing, word.Span, ("option", Option.OneByOne.Name));
        }
    }

    private static BigInteger? Cycle(Request request, Option option)
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
        return number;
    }

    private static FigureTarget? Target(Request request)
    {
        if (request[Option.Size] is not { } word)
        {
            return null;
        }
        if (FigureTarget.Read(word.Text) is not { } target)
        {
            RefuseValue(request, Option.Size, word, FigureTarget.Known);
            return null;
        }
        return target;
    }

    /// <summary>Says that a word is none of those that an option takes.</summary>
    public static void RefuseValue(Request request, Option option, RequestWord word, IReadOnlyList<string> known) =>
        request.Report.Add(
            Id.OptionValue,
            word.Span,
            ("option", option.Name),
            ("value", word.Text),
            ("known", known),
            ("near", NearNames.Of(word.Text, known))
        );

    /// <summary>The one that an option names, or the first.</summary>
    public static T? Chosen<T>(Request request, Option option, IReadOnlyList<T> all, Func<T, string> name)
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
        RefuseValue(request, option, word, names);
        return default;
    }
}
