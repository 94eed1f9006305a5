namespace Reckoner.Tests;

/// <summary>Comma-separated values read strictly by the grammar of RFC 4180.</summary>
internal static class CsvReader
{
    public static List<List<string>> Read(string text)
    {
        var records = new List<List<string>>();
        var at = 0;
        while (at < text.Length)
        {
            var record = new List<string> { Field(text, ref at) };
            while (text[at] == ',')
            {
                at++;
                record.Add(Field(text, ref at));
            }
            if (text[at..(at + 2)] != "\r\n")
            {
                throw new InvalidDataException($"no CR LF at {at}");
            }
            at += 2;
            records.Add(record);
        }
        return records;
    }

    private static string Field(string text, ref int at)
    {
        var field = "";
        if (text[at] != '"')
        {
            while (!",\r\n".Contains(text[at]))
            {
                field += text[at] == '"' ? throw new InvalidDataException($"a quote at {at}") : text[at];
                at++;
            }
            return field;
        }
        for (at++; ; at++)
        {
            if (text[at] == '"' && text[at + 1] != '"')
            {
                at++;
                return field;
            }
            at += text[at] == '"' ? 1 : 0;
            field += text[at];
        }
    }
}
