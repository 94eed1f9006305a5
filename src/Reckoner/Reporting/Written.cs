namespace Reckoner.Reporting;

/// <summary>What is written piece by piece, as one text; for those who need it whole.</summary>
internal static class Written
{
    public static string Text(Action<TextWriter> write)
    {
        using var text = new StringWriter { NewLine = "\n" };
        write(text);
        return text.ToString();
    }
}
