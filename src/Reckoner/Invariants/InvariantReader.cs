using System.Globalization;
using System.Numerics;
using Reckoner.Diagnostics;
using Reckoner.Proving;
using Fact = Reckoner.Proving.Fact;

namespace Reckoner.Invariants;

/// <summary>
/// Reads what is said to hold at the head of every round, in the words in which proofs print it: sums of products of registers,
/// bits of them, operands and powers of 2, compared. n is the width (by its own name too), i the rounds that are done.
/// </summary>
internal sealed partial class InvariantReader
{
    private const int MostFacts = 24;
    private const int Deepest = 40;
    private const int Longest = 2000;

    /// <summary>Of n, of i and alone, in places and exponents.</summary>
    private const int LargestFactor = 1000;

    /// <summary>Of a sum: so many parts, and so many bits in the numbers before them.</summary>
    private const int MostParts = 200;
    private const int MostBits = 2000;

    private readonly InvariantNames names;
    private readonly Region region;
    private readonly Report report;
    private readonly IReadOnlyList<InvariantToken> tokens;
    private int at;
    private int depth;

    private InvariantReader(string text, InvariantNames names, Region region, Report report)
    {
        this.names = names;
        this.region = region;
        this.report = report;
        tokens = InvariantToken.Of(text);
    }

    /// <summary>What is wrong with it; the rest is not read.</summary>
    private sealed class WrongException : Exception;

    /// <summary>Null with what is wrong in the report; its spans count in the text.</summary>
    public static Proposed? Read(
        string text,
        LiftedMachine machine,
        Variables variables,
        IReadOnlyList<Piece> usual,
        Extent count,
        Report report
    )
    {
        var names = new InvariantNames(machine, variables, usual);
        var region = new Region(machine.Least, count - 1);
        try
        {
            if (text.Length > Longest)
            {
                throw new NotReachedException(Obstacle.Degree);
            }
            var facts = new InvariantReader(text, names, region, report).Facts();
            return names.Pieces(region, report) is { } pieces
                ? new Proposed([.. facts.Select(f => f with { Form = f.Form.With(names.Sums) })], pieces)
                : null;
        }
        catch (WrongException)
        {
            return null;
        }
        catch (NotReachedException)
        {
            report.Add(
                Id.InvariantForm,
                new Span(0, text.Length),
                ("found", new Term("form.all")),
                ("expected", new Term("form.small"))
            );
            return null;
        }
    }

    private InvariantToken Next => tokens[at];

    private bool Eat(string text)
    {
        if (Next.Text != text)
        {
            return false;
        }
        at++;
        return true;
    }

    private void Need(string text, string form)
    {
        if (!Eat(text))
        {
            throw Missing(form);
        }
    }

    private WrongException Missing(string form) => Wrong(Next, form);

    private WrongException Wrong(InvariantToken token, string form)
    {
        report.Add(
            Id.InvariantForm,
            token.Span,
            ("found", token.Text.Length > 0 ? new Term("form.quoted", ("text", token.Text)) : new Term("form.end")),
            ("expected", new Term($"form.{form}"))
        );
        return new WrongException();
    }

    /// <summary>invariant = relation { ( "and" | "," ) relation } ;</summary>
    private List<Fact> Facts()
    {
        var facts = new List<Fact>();
        do
        {
            facts.AddRange(Relation());
        } while (Eat("and") || Eat(","));
        return Next.Text.Length > 0 || facts.Count > MostFacts ? throw Missing("invariant-more") : facts;
    }

    private static readonly string[] Signs = ["=", "<", "<=", ">", ">="];

    /// <summary>relation = sum ( "=" | "&lt;" | "&lt;=" | "&gt;" | "&gt;=" ) sum { the same } ;</summary>
    private List<Fact> Relation()
    {
        var facts = new List<Fact>();
        var left = Number();
        do
        {
            var sign = Next;
            if (!Signs.Contains(sign.Text))
            {
                throw Missing("invariant-relation");
            }
            at++;
            var right = Number();
            facts.Add(
                sign.Text switch
                {
                    "=" => Fact.Zero(left - right),
                    "<=" => Fact.NotNegative(right - left),
                    ">=" => Fact.NotNegative(left - right),
                    "<" => Positive(right - left),
                    _ => Positive(left - right),
                }
            );
            left = right;
        } while (Signs.Contains(Next.Text));
        return facts;
    }

    /// <summary>
    /// Above 0: times what makes it whole, 1 or more. x &lt; 2^(i-1) is x &lt;= 2^(i-1) - 1/2, since 2x and 2^i are whole.
    /// </summary>
    private Fact Positive(Form form) =>
        Goals.Scale(form, region) is { } scale
            ? Fact.NotNegative(form - Form.Of(new Monomial(-scale.Product.N, -scale.Product.I, 0), 1 / scale.Factor))
            : throw Missing("invariant-whole");

    private Form Number()
    {
        var from = Next;
        return Sum().Form ?? throw Wrong(from, "invariant-number");
    }

    /// <summary>A number of the machine, or one that powers and places are made of, or both where it is plain.</summary>
    private sealed record Amount(Form? Form, Extent? Extent);

    private Amount Sum()
    {
        if (++depth > Deepest)
        {
            throw Missing("invariant-number");
        }
        var sum = Eat("-") ? Negated(Product()) : Product();
        while (Next.Text is "+" or "-")
        {
            var isTaken = tokens[at++].Text == "-";
            var next = isTaken ? Negated(Product()) : Product();
            sum = new(
                sum.Form is null || next.Form is null ? null : Bounded(sum.Form + next.Form),
                sum.Extent is null || next.Extent is null ? null : Small(sum.Extent + next.Extent)
            );
        }
        depth--;
        return sum;
    }

    private static Amount Negated(Amount of) =>
        new(of.Form is null ? null : -of.Form, of.Extent is null ? null : -of.Extent);

    /// <summary>product = power { ( "*" | "/" ) power } ; a number right before a name is one too: 2n.</summary>
    private Amount Product()
    {
        var product = Power();
        while (true)
        {
            if (
                Next.IsName
                && tokens[Math.Max(0, at - 1)] is { IsNumber: true } before
                && before.Span.End == Next.Span.Start
            )
            {
                product = Times(product, Power());
            }
            else if (Eat("*"))
            {
                product = Times(product, Power());
            }
            else if (Eat("/"))
            {
                var from = Next;
                product =
                    product.Form is { } form && Power().Form is { Parts: [{ Product.Factors: 0 } only] }
                        ? new(
                            Bounded(form.Times(new Monomial(-only.Product.N, -only.Product.I, 0), 1 / only.Factor)),
                            null
                        )
                        : throw Wrong(from, "invariant-divisor");
            }
            else
            {
                return product;
            }
        }
    }

    private static Amount Times(Amount a, Amount b) =>
        new(
            a.Form is null || b.Form is null ? null : Bounded(a.Form * b.Form),
            a.Extent is null || b.Extent is null ? null
                : a.Extent is { IsConstant: true, Constant: var x } ? Small(b.Extent * x)
                : b.Extent is { IsConstant: true, Constant: var y } ? Small(a.Extent * y)
                : null
        );

    /// <summary>What is put together from what is small stays small, or the next multiplication would have no end.</summary>
    /// <exception cref="NotReachedException">It is larger than anything that is judged.</exception>
    private static Form Bounded(Form form) =>
        form.Parts.Count <= MostParts
        && form.Parts.All(p =>
            Math.Max(p.Factor.Numerator.GetBitLength(), p.Factor.Denominator.GetBitLength()) <= MostBits
            && Math.Max(Math.Abs(p.Product.N), Math.Abs(p.Product.I)) <= LargestFactor
        )
            ? form
            : throw new NotReachedException(Obstacle.Degree);

    private static Extent? Small(Extent extent) =>
        new[] { extent.N, extent.I, extent.Constant }.All(f => Math.Abs(f) <= LargestFactor) ? extent : null;

    /// <summary>power = atom [ "^" atom ] ;</summary>
    private Amount Power()
    {
        var root = Atom();
        if (!Eat("^"))
        {
            return root;
        }
        var from = Next;
        var exponent = Eat("-") ? Negated(Atom()) : Atom();
        if (exponent.Extent is not { } power)
        {
            throw Wrong(from, "invariant-exponent");
        }
        if (root.Extent is { IsConstant: true, Constant: 2 })
        {
            return new(
                Form.Power(power),
                power is { IsConstant: true, Constant: >= 0 and < 10 } ? 1 << power.Constant : null
            );
        }
        if (root.Form is not { } form || !power.IsConstant || power.Constant is < 1 or > 4)
        {
            throw Wrong(from, "invariant-exponent");
        }
        return new(Enumerable.Repeat(form, power.Constant).Aggregate(Form.One, (a, b) => Bounded(a * b)), null);
    }

    /// <summary>
    /// atom = NUMBER | NAME [ "[" sum [ ".." sum ] "]" | "." ( "high" | "low" ) ] | "[" NAME "&lt;" "0" "]" | "|" NAME "|"
    ///      | "(" sum ")" ;
    /// </summary>
    private Amount Atom()
    {
        var token = Next;
        if (token.IsNumber)
        {
            at++;
            var number = BigInteger.Parse(token.Text, CultureInfo.InvariantCulture);
            return new(Bounded(Form.Of(number)), number <= LargestFactor ? (int)number : null);
        }
        if (Eat("("))
        {
            var inner = Sum();
            Need(")", "invariant-bracket");
            return inner;
        }
        if (Eat("["))
        {
            var name = Name();
            Need("<", "invariant-sign");
            Need("0", "invariant-sign");
            Need("]", "invariant-sign");
            return new(names.Sign(name.Text, name.Span) ?? throw Lacking(name, "invariant-sign"), null);
        }
        if (Eat("|"))
        {
            var name = Name();
            Need("|", "invariant-size");
            return new(names.Magnitude(name.Text) ?? throw Lacking(name, "invariant-size"), null);
        }
        return Named(Name());
    }

    private InvariantToken Name() => Next.IsName ? tokens[at++] : throw Missing("invariant-number");

    private Amount Named(InvariantToken name)
    {
        if (Next.Text == "." && tokens[at + 1] is { Text: "high" or "low" } half && Joined(name, half))
        {
            at += 2;
            return new(names.Half($"{name.Text}.{half.Text}") ?? throw Unknown(name), null);
        }
        if (Next.Text == "[" && Joined(name, Next) && names.IsRegister(name.Text))
        {
            at++;
            var from = Next;
            var high = Sum().Extent ?? throw Wrong(from, "invariant-places");
            from = Next;
            var low = Eat("..") ? Sum().Extent ?? throw Wrong(from, "invariant-places") : high;
            Need("]", "invariant-places");
            return new(names.Bits(name.Text, high, low, new Span(name.Span.Start, tokens[at - 1].Span.End)), null);
        }
        if (names.Extent(name.Text) is { } extent)
        {
            return new(extent.IsConstant ? Form.Of(extent.Constant) : null, extent);
        }
        return new(names.Number(name.Text, name.Span) ?? throw Unknown(name), null);
    }

    /// <summary>No blank stands between them; the point of ".high" may stand between.</summary>
    private static bool Joined(InvariantToken a, InvariantToken b) => b.Span.Start - a.Span.End <= 1 && b.Text != "..";

    private WrongException Lacking(InvariantToken name, string form) =>
        names.Known.Contains(name.Text) ? Wrong(name, form) : Unknown(name);

    private WrongException Unknown(InvariantToken name)
    {
        report.Add(
            Id.InvariantName,
            name.Span,
            ("name", name.Text),
            ("machine", names.Machine),
            ("known", names.Known),
            ("near", NearNames.Of(name.Text, names.Known))
        );
        return new WrongException();
    }
}
