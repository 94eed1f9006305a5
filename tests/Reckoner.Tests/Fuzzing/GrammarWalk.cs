namespace Reckoner.Tests;

/// <summary>Texts of the grammar without regard to what they mean: each production chosen by chance.</summary>
internal sealed class GrammarWalk(Random random)
{
    private static readonly string[] Names = ["n", "m", "A", "B", "word", "x", "t", "alu", "left", "q"];
    private int depth;

    public static string Of(int seed) => new GrammarWalk(new Random(seed)).Description();

    private string Description() => "machine walked\nwidth n = 4 in 2..8\n" + Times(2, 12, () => Declaration() + "\n");

    private string Declaration() =>
        random.Next(16) switch
        {
            0 => $"width {Name()} = {Sum()} in {Sum()}..{Sum()}",
            1 => $"parameter {Name()} = {Sum()} in {Sum()}..{Sum()}",
            2 => $"constant {Name()}{Maybe(() => " : " + Type())} = {Formula()}",
            3 => $"operand {Named()}{Phrase()} : {Type()}",
            4 => $"given {Formula()}",
            5 or 6 => $"register {Name()}{Phrase()} : {Type()} loads {Value()}",
            7 => $"part {Name()}{Phrase()} = {Name()}[{Sum()}..{Sum()}]",
            8 => $"unit {Name()} : {(Even() ? "adder" : "multiplier")} {Sum()}",
            9 =>
                $"table {Name()}({Name()} : {Type()}) : {Type()}\n{Times(0, 3, () => $"{Formula()}: {Formula()}\n")}else: 0\nend",
            10 => $"core {Name()}-x\n{Times(0, 2, () => $"{Name()} = {Value()}\n")}end",
            11 =>
                $"repeat {(Even() ? Sum() : $"at most {Sum()} while {Value()}")}\n{(Even() ? Moments() : Times(1, 2, Step))}end",
            12 or 13 => Step(),
            14 => $"result {Named()} = {Value()}",
            _ =>
                $"{(Even() ? "law" : "outside")} {Formula()}{Maybe(() => $" {(Even() ? "" : "exactly ")}when {Formula()}")}",
        };

    private string Step() => $"step {Named()}{Phrase()}\n{Moments()}";

    private string Moments() => Statements() + Times(0, 2, () => "then\n" + Statements());

    private string Statements() => ++depth > 4 ? Back("hold\n") : Back(Times(0, 3, Statement));

    private string Back(string text)
    {
        depth--;
        return text;
    }

    private string Statement() =>
        random.Next(8) switch
        {
            0 =>
                $"let {Name()}{Maybe(() => " de \"x\"")}{Maybe(() => ", " + Name())} = {Value()}{Maybe(() => " via " + Name())}{Maybe(() => " says \"{}\"")}\n",
            1 => $"let {Name()} = case {Value()}\n{Times(0, 3, () => $"{Labels()}{Said()}: {Value()}\n")}end\n",
            2 => $"if {Value()}{Said()}\n{Statements()}{Maybe(() => "else\n" + Statements())}end\n",
            3 => $"case {Value()}\n{Times(0, 3, () => $"{Labels()}{Said()}:\n{Statements()}")}end\n",
            4 => $"hold\n",
            5 => "note \"so\"\n",
            _ =>
                $"{Name()}{Maybe(() => $"[{Sum()}]")}{Maybe(() => ":" + Name())} <- {Value()}{Maybe(() => " via " + Name())}\n",
        };

    private string Said() => Maybe(() => " says \"so\"");

    private string Labels() => random.Next(4) == 0 ? "else" : Label() + Maybe(() => ", " + Label());

    private string Label() => Pick("0b0", "0b1x", "0b01", "3", "-1", "0bxx_x");

    private string Type() => Maybe(() => "signed ") + Sum();

    private string Value() => Deep(() => $"{Logic(Value)} when {Logic(Value)} else {Value()}", () => Logic(Value));

    private string Formula() => Deep(() => $"{Sum()} < {Sum()} <= {Sum()}", () => Logic(Formula));

    private string Logic(Func<string> inner) =>
        random.Next(6) switch
        {
            0 => $"{Compared(inner)} {Pick("and", "or", "xor")} {Compared(inner)}",
            1 => $"not {Compared(inner)}",
            _ => Compared(inner),
        };

    private string Compared(Func<string> inner) =>
        random.Next(3) == 0 ? $"{Added(inner)} {Pick("=", "<>", "<", "<=", ">", ">=")} {Added(inner)}" : Added(inner);

    private string Added(Func<string> inner) =>
        random.Next(3) == 0 ? $"{Atom(inner)} {Pick("+", "-", "*", "/", "^", ":")} {Atom(inner)}" : Atom(inner);

    private string Sum() =>
        Pick("n", "1", "0", "2n", "n + 1", "n - 1", "2n - 1", "n/2", "2^n", "m", "3", "ceil(n/2)", "floor(log2(n))");

    private string Atom(Func<string> inner) =>
        Deep(
            () =>
                random.Next(5) switch
                {
                    0 => $"({inner()})",
                    1 =>
                        $"{Pick("shl", "shr", "extend", "copies", "abs", "signed", "unsigned", "t", "csa", "floor")}({inner()}, {inner()})",
                    2 => $"{Pick("extend", "abs", "signed", "unsigned", "not ", "-")}({inner()})",
                    3 => $"{Name()}[{Sum()}..{Sum()}]",
                    _ => $"{Name()}[{Sum()}]",
                },
            () => Pick("0b01", "0", "1", "5", "last", Name(), Name(), Name())
        );

    private string Deep(Func<string> more, Func<string> less)
    {
        if (depth > 6 || random.Next(3) > 0)
        {
            return less();
        }
        depth++;
        return Back(more());
    }

    private string Name() => Names[random.Next(Names.Length)];

    private string Named() => Name() + Maybe(() => " de \"Wort\"");

    private string Phrase() => Maybe(() => " \"a phrase\"");

    private string Maybe(Func<string> text) => random.Next(3) == 0 ? text() : "";

    private bool Even() => random.Next(2) == 0;

    private string Pick(params string[] choices) => choices[random.Next(choices.Length)];

    private string Times(int least, int most, Func<string> text) =>
        string.Concat(Enumerable.Range(0, random.Next(least, most + 1)).Select(_ => text()));
}
