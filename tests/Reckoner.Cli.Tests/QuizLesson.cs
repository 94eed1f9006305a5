namespace Reckoner.Cli.Tests;

/// <summary>A lesson that asks in every way, and its banks.</summary>
internal static class QuizLesson
{
    public const string Questions = """
        ---
        machine: divide-still-divisor
        width: 4
        ---

        # Division

        ```question
        fill walk 13 3
        marks 2.5
        given columns D
        ```

        ```question
        say quotient cycles R@3 left@3 walk 13 3
        ```

        ```question
        find walk 13 3 --slip guard-dropped-not-last
        marks 2
        ```

        ```question
        which walk 13 3 --slip guard-dropped-not-last
        ```

        ```question
        mend show --slip guard-dropped-not-last
        marks 2
        ```

        ```question
        choose operands --showing "quotient = 3"
        ```

        ```question
        fill paper 13 3
        ```

        ```question
        fill states
        ```

        ```question
        fill compare divide-still-divisor divide-shared-register 13 3
        ```

        ```question
        fill walk drawn
        from 2
        given rows 3
        ```

        ```question
        say product walk multiply-booth --width 4 -4 3
        ```

        ```question
        say quotient walk --width 5 17 8
        ```
        """;

    /// <summary>The file of a bank, by its form.</summary>
    public static Once<string, string> Banks { get; } = new(Made);

    /// <summary>What was told when it was made.</summary>
    public static string Told { get; private set; } = "";

    private static string Made(string form)
    {
        WorkFolder.Enter();
        var (lesson, bank) = (WorkFolder.At($"quiz-{form}.md"), WorkFolder.At($"quiz-{form}.bank"));
        File.WriteAllText(lesson, Questions);
        var made = Command.Run("lesson", lesson, "--quiz", form, "-o", bank);
        if ((made.Status, made.Errors) != (0, ""))
        {
            throw new InvalidOperationException(made.Errors);
        }
        Told = made.Output;
        return bank;
    }
}
