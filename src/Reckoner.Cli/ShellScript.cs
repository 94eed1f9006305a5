namespace Reckoner.Cli;

/// <summary>What makes a shell ask reckoner how a word goes on.</summary>
/// <param name="Name">As it is asked for.</param>
/// <param name="File">Where the shell reads what is to be set up.</param>
/// <param name="Line">What stands there.</param>
/// <param name="IsTold">Whether the shell shows what each word is.</param>
internal sealed record ShellScript(string Name, string File, string Line, bool IsTold)
{
    public static readonly IReadOnlyList<ShellScript> All =
    [
        new("bash", "~/.bashrc", "source <(reckoner completions bash)", IsTold: false),
        new("zsh", "~/.zshrc", "source <(reckoner completions zsh)", IsTold: true),
        new("fish", "~/.config/fish/config.fish", "reckoner completions fish | source", IsTold: true),
        new("powershell", "$PROFILE", "reckoner completions powershell | Out-String | Invoke-Expression", IsTold: true),
    ];

    public string Text
    {
        get
        {
            using var stream = typeof(ShellScript).Assembly.GetManifestResourceStream($"shells/{Name}")!;
            using var reader = new StreamReader(stream);
            return reader.ReadToEnd();
        }
    }
}
