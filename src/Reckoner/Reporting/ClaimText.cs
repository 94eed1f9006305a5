using System.Numerics;
using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Notation;
using Reckoner.Running;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>Claims as readers of a language are shown them; in English that is the description's own text.</summary>
internal static class ClaimText
{
    public static string Of(Claim claim, Datapath datapath, Vocabulary words)
    {
        var spoken = In(datapath, words);
        var formula = FormulaText.Of(claim.Formula, spoken);
        return claim.Condition is null
            ? formula
            : words.Say(
                claim.Mode switch
                {
                    ClaimMode.Always or ClaimMode.When => "formula.when",
                    ClaimMode.ExactlyWhen => "formula.exactly-when",
                },
                ("formula", formula),
                ("condition", FormulaText.Of(claim.Condition, spoken))
            );
    }

    /// <summary>
    /// A claim with numbers in the place of names. A condition that applies is left out, but not that of "exactly when": without
    /// it a formula that is rightly false would stand there as if it were true.
    /// </summary>
    public static string WithNumbers(
        Claim claim,
        IReadOnlyDictionary<string, BigInteger> numbers,
        Datapath datapath,
        Vocabulary words
    ) => WithNumbers(claim, numbers, In(datapath, words), words);

    public static string WithNumbers(
        Claim claim,
        IReadOnlyDictionary<string, BigInteger> numbers,
        FormulaWords spoken,
        Vocabulary words
    )
    {
        var formula = FormulaText.WithNumbers(claim.Formula, numbers, spoken);
        return claim.Mode switch
        {
            ClaimMode.Always or ClaimMode.When => formula,
            ClaimMode.ExactlyWhen => words.Say(
                "formula.exactly-when",
                ("formula", formula),
                ("condition", FormulaText.WithNumbers(claim.Condition!, numbers, spoken))
            ),
        };
    }

    /// <summary>What became of a claim for the numbers of a walk: itself with these in the place of names, or why it has no value.</summary>
    public static string Applied(
        JudgedClaim claim,
        IReadOnlyDictionary<string, BigInteger> numbers,
        Datapath datapath,
        Vocabulary words
    ) =>
        claim.Undefined is { } undefined
            ? Of(undefined, datapath, words)
            : WithNumbers(claim.Claim, numbers, datapath, words);

    /// <summary>Why a formula has no value, and that it does not hold then.</summary>
    public static string Of(Undefined undefined, Datapath datapath, Vocabulary words) =>
        words.Say(
            $"walk.undefined.{undefined.Why.Name}",
            ("formula", FormulaText.Of(undefined.Part, In(datapath, words)))
        );

    /// <summary>The names of operands and results, and the small words between, in a language.</summary>
    public static FormulaWords In(Datapath datapath, Vocabulary words)
    {
        var names = datapath.Operands.ToDictionary(o => o.Name, o => o.In(words.Language));
        foreach (var result in datapath.Results)
        {
            names[result.Name] = result.In(words.Language);
        }
        foreach (var formula in datapath.Machine.Description.Declarations.OfType<FormulaLine>())
        {
            names[formula.Name.Text] = formula.Name.In(words.Language);
        }
        return new FormulaWords(names, word => words.Say($"formula.{word}"));
    }
}
