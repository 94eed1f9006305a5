using Reckoner.Datapaths;
using Reckoner.Explaining;
using Reckoner.Numbers;
using Reckoner.Questions;

namespace Reckoner.Documents.Quizzes;

/// <summary>Every way to work the machines of a bank wrongly, each machine asked once.</summary>
internal sealed class QuizWays
{
    private readonly Dictionary<string, Ways?> known = [];

    /// <summary>Null where its rows are too wide.</summary>
    public Ways? Of(Datapath datapath)
    {
        var key = $"{datapath.Machine.Hash} {datapath.Machine.Slip} {WidthText.Of(datapath.Widths)}";
        if (!known.TryGetValue(key, out var ways))
        {
            known[key] = ways = Ways.Of(datapath, WhyQuestion.Others(datapath));
        }
        return ways;
    }
}
