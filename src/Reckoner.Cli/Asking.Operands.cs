using Reckoner.Questions;

namespace Reckoner.Cli;

internal static partial class Asking
{
    public static OperandsQuestion? Chosen(Request request)
    {
        if (Machine(request) is not { } machine || OperandsChoice.Read(request, machine) is not { } choice)
        {
            return null;
        }
        var isAll = request[Option.Exposing]?.Text == OperandsQuestion.EverySlip;
        var what =
            isAll ? ChosenFor.ExposingAll
            : request.Has(Option.TellingApart) ? ChosenFor.TellingApart
            : request.Has(Option.Count) ? ChosenFor.EqualDifficulty
            : ChosenFor.Showing;
        var question = new OperandsQuestion(machine, what)
        {
            Showing = request[Option.Showing]?.Text,
            Exposing = isAll ? null : request[Option.Exposing]?.Text,
            Allowed = choice.Allowed,
            Again = request.Has(Option.Again),
            Sample = choice.Sample,
            Seed = choice.Seed,
        };
        return (choice.Count ?? choice.Best) is { } count ? question with { Count = count } : question;
    }
}
