using Reckoner.Datapaths;
using Reckoner.Diagnostics;
using Reckoner.Proving;

namespace Reckoner.Invariants;

/// <summary>What an invariant may speak of, and which bits of which registers it did speak of.</summary>
internal sealed class InvariantNames(LiftedMachine machine, Variables variables, IReadOnlyList<Piece> usual)
{
    /// <summary>Bits of a register that were spoken of as one number.</summary>
    private sealed record Spoken(Register Register, Extent High, Extent Low, int Variable, Span Span)
    {
        public bool IsWhole => Variable < 0;
    }

    private readonly List<Spoken> spoken = [];
    private readonly Dictionary<int, Form> sums = [];

    private Datapath Datapath => machine.Datapath;

    public string Machine => Datapath.Machine.Name;

    /// <summary>For what was spoken of and is no piece, the pieces that it is put together from.</summary>
    public IReadOnlyDictionary<int, Form> Sums => sums;

    public IReadOnlyList<string> Known => [.. All.Distinct()];

    private IEnumerable<string> All =>
        [
            .. usual.Select(p => p.Name),
            .. Datapath.Registers.Select(r => r.Name),
            .. Datapath.Registers.SelectMany(r => r.Parts).Where(p => machine.Range(p) is not null).Select(p => p.Name),
            .. Datapath.Operands.Select(o => o.Name),
            "n",
            "i",
        ];

    public bool IsRegister(string name) => Register(name) is not null;

    private Register? Register(string name) => Datapath.Registers.FirstOrDefault(r => r.Name == name);

    /// <summary>The width, the rounds that are done, a constant of the description.</summary>
    public Extent? Extent(string name) =>
        name == "i" ? Proving.Extent.Rounds
        : name == "n" && machine.Number(name) is null ? new Extent(1, 0, 0)
        : machine.Number(name);

    /// <summary>1 where the number is below 0; null for what has no sign.</summary>
    public Form? Sign(string name, Span span)
    {
        if (usual.FirstOrDefault(p => p.Name == name && p.IsSigned) is { } piece)
        {
            // A sign is one of the whole register: of its bits nothing can be said beside it.
            spoken.Add(new(piece.Register, machine.Width(piece.Register) - 1, 0, -1, span));
            return Form.Variable(variables.Sign(name));
        }
        return Datapath.Operands.Any(o => o.Name == name && o.IsSigned) ? Form.Variable(variables.Sign(name)) : null;
    }

    public Form? Magnitude(string name) =>
        Datapath.Operands.FirstOrDefault(o => o.Name == name) is not { } operand ? null
        : operand.IsSigned ? Form.Variable(variables.Magnitude(name))
        : Form.Variable(variables.Operand(name));

    /// <summary>The upper or lower part of a register that is cut at a moving place.</summary>
    public Form? Half(string name) =>
        usual.FirstOrDefault(p => p.Name == name) is { } piece
            ? Bits(piece.Register.Name, piece.High, piece.Low, default)
            : null;

    public Form Bits(string register, Extent high, Extent low, Span span)
    {
        var own = Register(register)!;
        var name = usual.FirstOrDefault(p => p.Register == own && !p.IsSigned && (p.High, p.Low) == (high, low))?.Name;
        var variable = variables.Of(name ?? $"{own.Name}[{high}..{low}]");
        spoken.Add(new(own, high, low, variable, span));
        return Form.Variable(variable);
    }

    /// <summary>A register, a part or an operand by its name.</summary>
    public Form? Number(string name, Span span)
    {
        if (Register(name) is { } register)
        {
            spoken.Add(new(register, machine.Width(register) - 1, 0, -1, span));
            return Form.Variable(variables.Of(register.Name));
        }
        if (Datapath.Registers.SelectMany(r => r.Parts).FirstOrDefault(p => p.Name == name) is { } part)
        {
            return machine.Range(part) is var (high, low) ? Bits(part.Register.Name, high, low, span) : null;
        }
        return Datapath.Operands.Any(o => o.Name == name) ? Form.Variable(variables.Operand(name)) : null;
    }

    /// <summary>The pieces of all registers, cut where bits were spoken of; null where that cannot be, which is reported.</summary>
    public IReadOnlyList<Piece>? Pieces(Region region, Report report)
    {
        var pieces = new List<Piece>();
        foreach (var register in Datapath.Registers)
        {
            var bits = spoken.FindAll(s => s.Register == register && !s.IsWhole);
            var whole = spoken.Find(s => s.Register == register && s.IsWhole);
            var own =
                bits.Count == 0 ? [.. usual.Where(p => p.Register == register)] : Cut(register, bits, region, report);
            if (own is null)
            {
                return null;
            }
            if (whole is not null && register.IsSigned && bits.Count > 0)
            {
                report.Add(
                    Id.InvariantPlaces,
                    whole.Span,
                    ("register", register.Name),
                    ("form", new Term("form.signed-bits"))
                );
                return null;
            }
            pieces.AddRange(own);
            if (whole is not null && own.TrueForAll(p => p.Variable != variables.Of(register.Name)))
            {
                sums[variables.Of(register.Name)] = Sum(own, 0);
            }
            foreach (var part in bits.Where(b => own.TrueForAll(p => p.Variable != b.Variable)))
            {
                var inside = own.FindAll(p =>
                    region.NeverNegative(part.High - p.High) && region.NeverNegative(p.Low - part.Low)
                );
                sums[part.Variable] = Sum(inside, part.Low);
            }
        }
        return pieces;
    }

    private static Form Sum(IEnumerable<Piece> pieces, Extent from) =>
        pieces.Aggregate(Form.Zero, (sum, p) => sum + Form.Variable(p.Variable) * Form.Power(p.Low - from));

    private List<Piece>? Cut(Register register, List<Spoken> bits, Region region, Report report)
    {
        var width = machine.Width(register);
        var places = new List<Extent> { 0, width };
        foreach (var part in bits)
        {
            foreach (var place in new[] { part.Low, part.High + 1 })
            {
                var below = places.FindIndex(p => !(region.NeverNegative(place - p) && place != p));
                if (places.Contains(place))
                {
                    continue;
                }
                if (below <= 0 || !region.NeverNegative(places[below] - place))
                {
                    report.Add(
                        Id.InvariantPlaces,
                        part.Span,
                        ("register", register.Name),
                        ("form", new Term("form.places"))
                    );
                    return null;
                }
                places.Insert(below, place);
            }
            if (!region.NeverNegative(part.High + 1 - part.Low))
            {
                report.Add(
                    Id.InvariantPlaces,
                    part.Span,
                    ("register", register.Name),
                    ("form", new Term("form.places"))
                );
                return null;
            }
        }
        var pieces = new List<Piece>();
        for (var p = places.Count - 2; p >= 0; p--)
        {
            var (high, low) = (places[p + 1] - 1, places[p]);
            var name =
                usual.FirstOrDefault(u => u.Register == register && !u.IsSigned && (u.High, u.Low) == (high, low))?.Name
                ?? $"{register.Name}[{high}..{low}]";
            pieces.Add(new Piece(name, register, high, low, false, variables.Of(name)));
        }
        return pieces;
    }
}
