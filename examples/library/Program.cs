using System.Diagnostics;
using Reckoner;
using Reckoner.Questions;

// A machine of one's own, in words of one's own: it counts how often one number goes into another.
const string Description = """
    machine share-out
    title "Sharing out, one round after the other"
    width n = 4 in 2..8

    operand apples : n
    operand children : n
    given children > 0

    register Heap "the heap" : n loads apples
    register Among "the number of children" : n loads children
    register Each "what each child has" : n loads 0

    repeat 2^n - 1
      let fewer, short = Heap - Among
      if not short
        Heap <- fewer
        Each <- Each + 1
      end
    end

    result each = Each
    result over = Heap

    law apples = each * children + over
    law over < children
    """;

var machine = Reckon.Read(Description, "share-out");

// One set of operands, cycle by cycle.
var answer = Reckon.Walk(new AskedMachine(machine) { Widths = 3 }, 7, 3);
if (!answer.IsGiven)
{
    Console.Write(Reckon.Say(answer.Found));
    return 2;
}
foreach (var row in answer.Data.Rows.Take(4))
{
    Console.WriteLine($"cycle {row.Cycle}: the heap is {row.Registers[0]}, each child has {row.Registers[2]}");
}
Console.WriteLine($"every law holds: {answer.Data.Holds}");

// Every operand.
var clock = Stopwatch.StartNew();
var means = new Means(new InterpretedRunner(), () => clock.Elapsed);
var check = await Reckon.Check(new CheckQuestion(machine), means);
var counts = check.Data!.Checks[0].Result.Sections[0].Count;
Console.WriteLine($"{counts.Cases} cases, {counts.Failures} failures");

// What does not fit is refused in words, with nothing thrown.
var refused = Reckon.Walk(machine, 16, 3);
Console.Write(Reckon.Say(refused.Found));
return 0;
