using Reckoner.Checking;
using Reckoner.Costing;
using Reckoner.Diagnostics;
using Reckoner.Questions;
using Reckoner.Running;
using Reckoner.Styles;
using Reckoner.Words;

namespace Reckoner.Cli;

/// <summary>Builds questions from the words of a request, on the command line or in a lesson. Null when one is wrong; the report says so.</summary>
internal static partial class Asking
{
    /// <summary>A machine of the request, with its slip and the widths that are asked for.</summary>
    public static AskedMachine? Machine(Request request, RequestWord word) =>
        MachineFiles.Read(request, word) is not { } machine
            ? null
            : new AskedMachine(machine)
            {
                Slip = request.SlipOf(word)?.Text,
                Widths = request[Option.Width] is { } widths ? AskedWidths.Read(widths.Text) : AskedWidths.Usual,
            };

    public static AskedMachine? Machine(Request request) => Machine(request, request.Machine!);

    private static IReadOnlyList<AskedOperand> Operands(Request request) =>
        [.. request.Operands.Select(o => AskedOperand.Read(o.Text))];

    public static WalkQuestion? Walk(Request request) =>
        Machine(request) is { } machine
            ? new WalkQuestion(machine) { Operands = Operands(request), Anyway = request.Has(Option.Anyway) }
            : null;

    /// <summary>The house style, with reasons as long as the request wants them; null when it wants something else.</summary>
    public static HouseStyle? Styled(Request request, HouseStyle style)
    {
        var form = Chosen(request, Option.Reasons, Forms, f => f.ToString().ToLowerInvariant());
        return request.Report.HasErrors ? null
            : request.Has(Option.Reasons) ? style with { Reasons = form }
            : style;
    }

    private static readonly ReasonForm[] Forms = Enum.GetValues<ReasonForm>();

    public static CompareQuestion? Compare(Request request)
    {
        if (CompareQuestion.Count(request.Machines.Count, request.Verb!.Name) is { } wrong)
        {
            // Before files are read that would not be compared.
            Placing.Report([wrong], request);
            return null;
        }
        return Machines(request) is { } machines
            ? new CompareQuestion(machines) { Operands = Operands(request), Anyway = request.Has(Option.Anyway) }
            : null;
    }

    private static List<AskedMachine>? Machines(Request request)
    {
        var machines = new List<AskedMachine>();
        foreach (var word in request.Machines)
        {
            if (Machine(request, word) is not { } machine)
            {
                return null;
            }
            machines.Add(machine);
        }
        return machines;
    }

    public static CheckQuestion? Check(Request request)
    {
        if (
            Machine(request) is not { } machine
            || Plan.Read(request, CheckQuestion.MostSampled) is not var (part, sample)
        )
        {
            return null;
        }
        var resumed = request[Option.Resume] is { } file ? CheckpointFile.Read(request, file) : null;
        return request.Report.HasErrors
            ? null
            : new CheckQuestion(machine)
            {
                Part = part,
                Only = request[Option.Only]?.Text,
                Sample = sample,
                Expected = request.Has(Option.Written) ? OracleUse.Written : null,
                Averages = request.Has(Option.Averages) ? AveragesWish.Always : AveragesWish.WhereCheap,
                Resumed = resumed,
            };
    }

    public static SlipsQuestion? Slips(Request request) =>
        Plan.Read(request, SlipsQuestion.MostSampled) is var (_, sample) && Machine(request) is { } machine
            ? new SlipsQuestion(machine)
            {
                Sample = sample,
                AsksConditions = !request.Has(Option.Quick),
                Proves = request.Has(Option.Prove),
            }
            : null;

    public static WhyQuestion? Why(Request request)
    {
        if (Machine(request) is not { } machine)
        {
            return null;
        }
        var table = request[Option.Table] is { } file ? MachineFiles.ReadNamed(file.Text, file, request.Report) : null;
        return request.Report.HasErrors
            ? null
            : new WhyQuestion(machine)
            {
                Operands = Operands(request),
                Got = request[Option.Got]?.Text,
                Table = table,
            };
    }

    public static HardwareQuestion? Hardware(Request request) =>
        Machine(request) is { } machine ? new HardwareQuestion(machine) : null;

    public static StatesQuestion? States(Request request) =>
        Machine(request) is { } machine ? new StatesQuestion(machine) : null;

    public static CostQuestion? Cost(Request request, CostModel model)
    {
        if (request.Has(Option.Clock))
        {
            Plan.Clash(request, Option.Clock, [Option.Adder]);
        }
        if (request[Option.Sample] is { } alone && !request.Has(Option.Activity))
        {
            Plan.Needs(request, alone, Option.Sample, Option.Activity);
        }
        var sample = Plan.Read(request, Activity.MostDrawn)?.Sample;
        var adders = AdderWords.Read(request);
        var clock = Plan.Number(request, Option.Clock, 1, int.MaxValue);
        return !request.Report.HasErrors && Machines(request) is { } machines
            ? new CostQuestion(machines)
            {
                Adders = adders,
                Clock = clock,
                Model = model,
                CountsActivity = request.Has(Option.Activity),
                Sample = sample,
            }
            : null;
    }

    public static LeadQuestion? Lead(Request request, Vocabulary words)
    {
        // One takes a version, the other goes on from all that were found: neither is asked of a way between two.
        foreach (var option in new[] { Option.Take, Option.All, Option.Prove })
        {
            if (request[option] is { } word)
            {
                request.Report.Add(Id.RefineOneMachine, word.Span, ("option", option.Name));
            }
        }
        if (request.Machines.Count > 2)
        {
            request.Report.Add(Id.RefineMachineCount, request.Machines[2].Span, ("count", request.Machines.Count));
        }
        return !request.Report.HasErrors && Machines(request) is [var from, var to]
            ? new LeadQuestion(from, to) { Words = words }
            : null;
    }

    public static RefineQuestion? Refine(Request request, Vocabulary words)
    {
        return !request.Report.HasErrors && Machine(request) is { } machine
            ? new RefineQuestion(machine)
            {
                IsFrontier = request.Has(Option.All),
                Proves = request.Has(Option.Prove),
                Taken = request.Has(Option.Take)
                    ? Plan.Number(request, Option.Take, 1, RefineQuestion.MostProposals)
                    : null,
                Steps = request.Has(Option.All) ? RefineQuestion.AllSteps : 1,
                Words = words,
            }
            : null;
    }

    public static IdleQuestion? Idle(Request request) =>
        Machine(request) is not { } machine ? null
        : request.Has(Option.ByStructure) ? new IdleQuestion(machine) { CaseBits = 0 }
        : new IdleQuestion(machine);
}
