namespace Reckoner.Site;

internal static class Resources
{
    public static string Text(string name)
    {
        using var stream = typeof(Resources).Assembly.GetManifestResourceStream(name)!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
