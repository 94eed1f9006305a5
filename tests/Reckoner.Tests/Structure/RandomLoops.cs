using System.Text;

namespace Reckoner.Tests;

/// <summary>Random schedules of short loops and steps, one behind the other, that reckon with sums and look at sums.</summary>
internal sealed class RandomLoops(Random random)
{
    private readonly StringBuilder text = new(
        """
        machine loops
        width n = 3 in 2..8
        operand a : n
        operand b : n
        register A : n loads a
        register B : n loads b

        """
    );

    public string Text()
    {
        for (var segments = random.Next(2, 5); segments > 0; segments--)
        {
            Segment(segments);
        }
        return text.Append("result first = A\nresult second = B\n").ToString();
    }

    private void Segment(int number)
    {
        switch (random.Next(4))
        {
            case 0:
                text.Append($"step alone{number}\n{Transfer()}");
                break;
            case 1:
                text.Append($"repeat {random.Next(3)}\n{Transfer()}end\n");
                break;
            default:
                text.Append($"repeat at most {random.Next(4)} while {Sum()} {Pick("=", "<>")} {random.Next(4)}\n");
                text.Append(
                    random.Next(2) == 0 ? Transfer() : $"step x{number}\n{Transfer()}step y{number}\n{Transfer()}"
                );
                text.Append("end\n");
                break;
        }
    }

    private string Transfer() => $"  {Pick("A", "B")} <- {(random.Next(3) == 0 ? "A xor B" : Sum())}\n";

    private string Sum() => $"{Pick("A", "B")} {Pick("+", "-")} {Pick("A", "B", "1", "3")}";

    private string Pick(params string[] choices) => choices[random.Next(choices.Length)];
}
