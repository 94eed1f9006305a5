using System.Numerics;
using Reckoner.Datapaths;
using Reckoner.Structure;

namespace Reckoner.Drawing;

/// <summary>
/// What a sheet of blocks shows of a state: the registers, and what their bits go through on the way to the next edge, each behind
/// what it takes words of. Conditions of one bit are asked by name; nothing of them stands here but the units and tables they need.
/// </summary>
internal sealed class BlockPlan
{
    private readonly MachineStructure structure;
    private readonly NetNames names;
    private readonly HashSet<Net> looked = [];
    private readonly HashSet<Net> drawn = [];
    private readonly HashSet<Unit> units = [];

    /// <summary>Nets whose bits go into registers, whoever else looks at them.</summary>
    private readonly HashSet<Net> carried = [];
    private readonly List<BlockPiece> pieces = [];

    private BlockPlan(MachineStructure structure, State state, NetNames names)
    {
        this.structure = structure;
        this.names = names;
        State = state;
    }

    public State State { get; }

    /// <summary>Units, choices and tables, each behind those it takes words of.</summary>
    public IReadOnlyList<BlockPiece> Pieces => pieces;

    /// <summary>What the registers hold behind the edge, those that simply keep what they hold left out.</summary>
    public IReadOnlyList<BlockPiece> Afters { get; private init; } = [];

    /// <param name="registers">Those whose ways are shown, by their index.</param>
    public static BlockPlan Of(MachineStructure structure, State state, NetNames names, Func<Register, bool> registers)
    {
        var stored = structure
            .Registers.Where(r => registers(r.Register) && !IsKept(r, state.Number))
            .Select(r => new BlockPiece(BlockPieceKind.After, r.Register.Width)
            {
                Register = r.Register,
                Word = r.Stored[state.Number],
            })
            .ToList();
        var plan = new BlockPlan(structure, state, names) { Afters = stored };
        stored.ForEach(a => plan.Draw(a.Word!));
        // Units that decide alone: what branches, cases and loops look at.
        if (structure.Registers.All(r => registers(r.Register)))
        {
            structure.Units.Where(u => names.Settings(u.Unit).Any()).ToList().ForEach(u => plan.Add(u.Unit));
        }
        foreach (var piece in plan.pieces)
        {
            piece.IsCarried = piece.Gives.Any(plan.carried.Contains);
        }
        return plan;
    }

    private static bool IsKept(RegisterStructure register, int state) =>
        state > 0
        && register.Stored[state].Stretches is [{ Net.Register: { } held, Times: 1 }]
        && held == register.Register;

    // ---- what is reached

    /// <summary>A word whose bits are carried.</summary>
    private void Draw(Bundle word)
    {
        foreach (var net in word.Nets)
        {
            Reach(net, isCarried: true);
        }
    }

    private void Look(Bundle word)
    {
        foreach (var net in word.Nets)
        {
            Reach(net, isCarried: false);
        }
    }

    private void Reach(Net net, bool isCarried)
    {
        if (isCarried && !BlockLayout.Flag(net))
        {
            carried.Add(net);
        }
        if (!(isCarried ? drawn : looked).Add(net))
        {
            return;
        }
        switch (net.Kind)
        {
            case NetKind.Unit:
                Add(net.Unit!);
                break;
            case NetKind.Lookup:
                Look(net.Inputs[0]);
                Add(Lookup(net));
                break;
            case NetKind.Choice when isCarried:
                var choice = Choice(net);
                Look(net.Inputs[0]);
                foreach (var arm in choice.Arms)
                {
                    Draw(arm.Word);
                }
                Add(choice);
                break;
            case NetKind.And or NetKind.Or or NetKind.Xor or NetKind.Not when isCarried && net.Width > 1:
                net.Inputs.ToList().ForEach(Draw);
                break;
            default:
                net.Inputs.ToList().ForEach(Look);
                break;
        }
    }

    private void Add(BlockPiece piece)
    {
        if (!pieces.Exists(p => p.Gives.Count > 0 && p.Gives.SequenceEqual(piece.Gives)))
        {
            pieces.Add(piece);
        }
    }

    private BlockPiece Lookup(Net net)
    {
        var asked = $"{net.Table!.Name}({names.Of(net.Inputs[0])})";
        return new BlockPiece(BlockPieceKind.Table, net.Width)
        {
            Gives = [net],
            Word = net.Inputs[0],
            Said = names.Given(net.Word) is { } name ? $"{name} = {asked}" : asked,
        };
    }

    private void Add(Unit unit)
    {
        if (!units.Add(unit))
        {
            return;
        }
        var settings = names.Settings(unit).ToList();
        settings.SelectMany(s => s.When).ToList().ForEach(g => Look(g.Word));
        settings.SelectMany(s => s.Operands).ToList().ForEach(Draw);
        var operands = settings.Count > 0 ? settings[0].Operands.Count : 0;
        for (var i = 0; i < operands; i++)
        {
            if (settings.Select(s => s.Operands[i]).Distinct().Count() > 1)
            {
                Add(Operands(unit, settings, i));
            }
        }
        pieces.Add(
            new BlockPiece(BlockPieceKind.Unit, unit.Size.Count)
            {
                Unit = unit,
                Settings = settings,
                Gives = structure.Units.Single(u => u.Unit == unit).Outputs,
            }
        );
    }

    /// <summary>The words that may enter one side of a unit.</summary>
    private BlockPiece Operands(Unit unit, List<UnitSetting> settings, int operand) =>
        new(BlockPieceKind.Choice, settings[0].Operands[operand].Width)
        {
            Serves = (unit, operand),
            Arms =
            [
                .. settings
                    .GroupBy(s => s.Operands[operand])
                    .Select(g => new Arm(When(g.First().When), g.Key, of => g.Any(s => IsSo(s.When, of)))),
            ],
        };

    private static bool IsSo(IEnumerable<Guard> guards, Func<Bundle, BigInteger> of) =>
        guards.All(g => g.IsSo(of(g.Word)));

    private string When(IReadOnlyList<Guard> guards) =>
        guards.Count == 0 ? ""
        : guards[^1].Arms.Count > 0 ? guards[^1].Arms[guards[^1].Arm].Written
        : guards[^1].IsTurned ? $"not {names.Asked(guards[^1].Word)}"
        : names.Asked(guards[^1].Word);

    // ---- choices

    /// <summary>A choice whose other word is again a choice of the same bits counts as one of several.</summary>
    private BlockPiece Choice(Net net)
    {
        var arms = new List<(Bundle Condition, Bundle Word)>();
        var last = net;
        for (; ; )
        {
            arms.Add((last.Inputs[0], last.Inputs[1]));
            if (
                last.Inputs[2].Stretches is not [{ Net: { Kind: NetKind.Choice } inner, Low: 0, Times: 1 } only]
                || only.High != inner.Width - 1
            )
            {
                break;
            }
            last = inner;
        }
        var rest = last.Inputs[2];
        var told = Told([.. arms.Select(a => a.Word), rest]);
        if (arms is [var (condition, one)])
        {
            var (asked, isTurned) = Plain(condition);
            Arm[] two =
            [
                new Arm("1", isTurned ? rest : one, of => of(asked).IsOne) { Told = told[isTurned ? 1 : 0] },
                new Arm("0", isTurned ? one : rest, of => of(asked).IsZero) { Told = told[isTurned ? 0 : 1] },
            ];
            return Chosen(net, [.. two.OrderBy(a => a.Word.Nets.Any(n => n.Kind == NetKind.Unit) ? 0 : 1)], asked);
        }
        var subject = Subject(arms.Select(a => a.Condition));
        var all = arms.Select(
                (a, i) =>
                    new Arm(
                        subject is null
                            ? names.Asked(a.Condition)
                            : string.Join(
                                ", ",
                                Patterns(a.Condition)
                                    .Select(p => names.Label(net, subject, p) ?? names.Of(p))
                                    .Distinct()
                            ),
                        a.Word,
                        of => of(a.Condition).IsOne && arms.Take(i).All(b => of(b.Condition).IsZero)
                    )
                    {
                        Told = told[i],
                    }
            )
            .Append(new Arm("", rest, of => arms.All(a => of(a.Condition).IsZero)) { Told = told[^1] });
        return Chosen(net, [.. all], subject);
    }

    /// <summary>Of words that are all that one unit gives, what it is told for each: the first thing for the first of them.</summary>
    private List<UnitSetting?> Told(IReadOnlyList<Bundle> words)
    {
        var given = new Dictionary<Unit, Queue<UnitSetting>>();
        foreach (var of in words.Select(UnitOf).OfType<Unit>().GroupBy(u => u))
        {
            var settings = names.Settings(of.Key).ToList();
            if (settings.Count == of.Count())
            {
                given[of.Key] = new Queue<UnitSetting>(settings);
            }
        }
        return
        [
            .. words.Select(w =>
                UnitOf(w) is { } unit && given.TryGetValue(unit, out var told) ? told.Dequeue() : null
            ),
        ];
    }

    private static Unit? UnitOf(Bundle word) =>
        word.Stretches is [{ Net: { Kind: NetKind.Unit, Output: UnitOutput.Result } net }] ? net.Unit : null;

    private static BlockPiece Chosen(Net net, IReadOnlyList<Arm> arms, Bundle? question) =>
        new(BlockPieceKind.Choice, net.Width)
        {
            Gives = [net],
            Arms = arms,
            Question = question,
        };

    /// <summary>A condition without the turning of it.</summary>
    public static (Bundle Word, bool IsTurned) Plain(Bundle condition) =>
        condition.Stretches is [{ Net: { Kind: NetKind.Not, Width: 1 } net }]
        && Plain(net.Inputs[0]) is var (word, turned)
            ? (word, !turned)
            : (condition, false);

    /// <summary>The word that all conditions compare with constants; null if they do not.</summary>
    private static Bundle? Subject(IEnumerable<Bundle> conditions)
    {
        var subjects = conditions.SelectMany(Compared).Select(n => n?.Inputs[0]).Distinct().ToList();
        return subjects is [{ } only] ? only : null;
    }

    private static IEnumerable<Bundle> Patterns(Bundle condition) => Compared(condition).Select(n => n!.Inputs[1]);

    private static IEnumerable<Net?> Compared(Bundle condition) =>
        condition.Stretches is not [{ Net: { } net }] ? [null]
        : net.Kind == NetKind.Or ? net.Inputs.SelectMany(Compared)
        : [net.Kind == NetKind.Equal && net.Inputs[1].Nets.FirstOrDefault() is null ? net : null];
}
