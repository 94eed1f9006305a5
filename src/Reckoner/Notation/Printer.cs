using System.Text;

namespace Reckoner.Notation;

/// <summary>Prints a description in its one canonical layout; reading that gives the same description.</summary>
internal static partial class Printer
{
    /// <summary>A claim longer than this goes on below at its "when".</summary>
    private const int LongClaim = 96;

    /// <summary>The whole text, lines ended by single line feeds. With <paramref name="comments"/> false, comments are left out.</summary>
    public static string Text(Description description, bool comments = true)
    {
        var page = new Page(comments);
        var group = -1;
        foreach (var declaration in description.Declarations)
        {
            var next = Group(declaration);
            if (group >= 0 && (next != group || declaration is TableBlock or CoreBlock))
            {
                page.Blank();
            }
            group = next;
            Print(page, declaration);
        }
        page.Remarks(description.Tail);
        return page.ToString();
    }

    /// <summary>Declarations of one group stand together; a blank line parts groups.</summary>
    private static int Group(Declaration declaration) =>
        declaration.Declares switch
        {
            DeclarationKind.Machine or DeclarationKind.Title or DeclarationKind.Note or DeclarationKind.Follows => 0,
            DeclarationKind.Width or DeclarationKind.Constant => 1,
            DeclarationKind.Operand or DeclarationKind.Given => 2,
            DeclarationKind.Register or DeclarationKind.Part or DeclarationKind.Meaning => 3,
            DeclarationKind.Unit => 4,
            DeclarationKind.Table => 5,
            DeclarationKind.Core => 6,
            DeclarationKind.Repeat or DeclarationKind.Step => 7,
            DeclarationKind.Result => 8,
            DeclarationKind.Formula => 9,
            DeclarationKind.Claim => 10,
        };

    private static void Print(Page page, Declaration declaration)
    {
        switch (declaration)
        {
            case MachineLine d:
                page.Line(d.Comments, $"machine {d.Name}");
                break;
            case TitleLine d:
                page.Line(d.Comments, $"title {Text(d.Title)}");
                break;
            case NoteLine d:
                page.Line(d.Comments, $"note {Text(d.Text)}");
                break;
            case FollowsLine d:
                page.Line(d.Comments, $"follows {d.Machine}");
                break;
            case WidthLine d:
                var word = d.IsParameter ? "parameter" : "width";
                page.Line(d.Comments, $"{word} {d.Name} = {Text(d.Default)} in {Text(d.Low)}..{Text(d.High)}");
                break;
            case ConstantLine d:
                var type = d.Type is null ? "" : $" : {Text(d.Type)}";
                page.Line(d.Comments, $"constant {d.Name}{type} = {Text(d.Formula)}");
                break;
            case OperandLine d:
                page.Line(d.Comments, $"operand {Text(d.Name)}{Behind(d.Phrase)} : {Text(d.Type)}");
                break;
            case GivenLine d:
                page.Line(d.Comments, $"given {Text(d.Formula)}");
                break;
            case RegisterLine d:
                page.Line(d.Comments, $"register {d.Name}{Behind(d.Phrase)} : {Text(d.Type)} loads {Text(d.Loads)}");
                break;
            case PartLine d:
                page.Line(d.Comments, $"part {d.Name}{Behind(d.Phrase)} = {Text(d.Slice)}");
                break;
            case MeaningLine d:
                var point = d.Point is null ? "" : $" point {Text(d.Point)}";
                var until = d.Until is null ? "" : $" until {d.Until}";
                page.Line(d.Comments, $"meaning {d.Name}{Behind(d.Phrase)} = {Text(d.Value)}{point}{until}");
                break;
            case UnitLine d:
                var kind = d.Kind == UnitKind.Adder ? "adder" : "multiplier";
                var by = d.By is null ? "" : $" by {Text(d.By)}";
                page.Line(d.Comments, $"unit {d.Name} : {kind} {Text(d.Width)}{by}");
                break;
            case TableBlock d:
                Print(page, d);
                break;
            case CoreBlock d:
                page.Line(d.Comments, $"core {d.Machine}");
                page.Inside(() =>
                {
                    foreach (var operand in d.Operands)
                    {
                        page.Line(operand.Comments, $"{operand.Name} = {Text(operand.Value)}");
                    }
                });
                page.Line(d.AtEnd, "end");
                break;
            case RepeatBlock d:
                Print(page, d);
                break;
            case StepBlock d:
                Print(page, d);
                break;
            case ResultLine d:
                page.Line(d.Comments, $"result {Text(d.Name)} = {Text(d.Value)}");
                break;
            case FormulaLine d:
                var others = Text(d.Name.Others);
                page.Line(d.Comments, $"formula {d.Name}{others}{d.Head[d.Name.Text.Length..]} = {Text(d.Body)}");
                break;
            case ClaimLine d:
                Print(page, d);
                break;
            default:
                throw new InvalidOperationException(declaration.GetType().Name);
        }
    }

    private static void Print(Page page, TableBlock table)
    {
        var indices = string.Join(", ", table.Indices.Select(i => $"{i.Name} : {Text(i.Type)}"));
        page.Line(table.Comments, $"table {table.Name}({indices}) : {Text(table.Type)}");
        page.Inside(() =>
        {
            foreach (var row in table.Rows)
            {
                page.Line(row.Comments, $"{(row.Condition is null ? "else" : Text(row.Condition))}: {Text(row.Value)}");
            }
        });
        page.Line(table.AtEnd, "end");
    }

    private static void Print(Page page, ClaimLine claim)
    {
        var line = $"{(claim.IsOutside ? "outside" : "law")} {Text(claim.Formula)}";
        if (claim.Condition is null)
        {
            page.Line(claim.Comments, line);
            return;
        }
        var condition = $"{(claim.Kind == ClaimCondition.When ? "when" : "exactly when")} {Text(claim.Condition)}";
        if (line.Length + 1 + condition.Length <= LongClaim)
        {
            page.Line(claim.Comments, $"{line} {condition}");
            return;
        }
        page.Line(claim.Comments with { Beside = null }, line);
        page.Inside(() => page.Line(new Comments([], claim.Comments.Beside), condition));
    }

    private static void Print(Page page, RepeatBlock repeat)
    {
        var bound = repeat.While is null
            ? Text(repeat.Count)
            : $"at most {Text(repeat.Count)} while {Text(repeat.While)}";
        page.Line(repeat.Comments, $"repeat {bound}");
        page.Inside(() =>
        {
            foreach (var step in repeat.Steps)
            {
                Print(page, step);
            }
        });
        page.Line(repeat.AtEnd, "end");
    }

    private static void Print(Page page, StepBlock step)
    {
        if (step.Name is null)
        {
            Print(page, step.Moments);
            return;
        }
        page.Line(step.Comments, $"step {Text(step.Name)}{Behind(step.Phrase)}");
        page.Inside(() => Print(page, step.Moments));
    }

    private static void Print(Page page, IReadOnlyList<Moment> moments)
    {
        for (var i = 0; i < moments.Count; i++)
        {
            if (i > 0)
            {
                page.Line(moments[i].Then, "then");
            }
            Print(page, moments[i].Statements);
        }
    }

    private static string Behind(Phrase? phrase) => phrase is null ? "" : " " + Text(phrase);

    public static string Text(Phrase phrase) => $"\"{phrase.Text}\"{Text(phrase.Others)}";

    private static string Text(Declared name) => name.Text + Text(name.Others);

    private static string Text(IReadOnlyList<(string Language, string Text)> others) =>
        string.Concat(others.Select(o => $" {o.Language} \"{o.Text}\""));

    public static string Text(TypeSyntax type) => (type.IsSigned ? "signed " : "") + Text(type.Width);

    /// <summary>Lines with their indentation, two blanks a level.</summary>
    private sealed class Page(bool comments)
    {
        private readonly StringBuilder text = new();
        private int level;

        public void Blank() => text.Append('\n');

        public void Inside(Action print)
        {
            level++;
            print();
            level--;
        }

        public void Remarks(IReadOnlyList<string> remarks)
        {
            foreach (var remark in comments ? remarks : [])
            {
                text.Append(' ', 2 * level).Append(remark).Append('\n');
            }
        }

        public void Line(Comments around, string line)
        {
            Remarks(around.Above);
            text.Append(' ', 2 * level).Append(line);
            if (comments && around.Beside is not null)
            {
                text.Append("  ").Append(around.Beside);
            }
            text.Append('\n');
        }

        public override string ToString() => text.ToString();
    }
}
