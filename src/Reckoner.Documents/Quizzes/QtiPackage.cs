using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Xml;
using Reckoner.Words;

namespace Reckoner.Documents.Quizzes;

/// <summary>Items as a content package: an archive with a list of what is in it.</summary>
internal static class QtiPackage
{
    /// <summary>The list that every package has at its top.</summary>
    private const string List = "imsmanifest.xml";

    /// <summary>Files in an archive must say when they were made; ours are made of their content alone.</summary>
    private static readonly DateTimeOffset Always = new(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public static byte[] Of(IReadOnlyList<QuizItem> items, QtiDialect dialect, Vocabulary words)
    {
        List<(string Path, byte[] Bytes)> files =
        [
            .. items.AsParallel().AsOrdered().Select(i => (Path(i), QtiItem.Of(i, dialect, words))),
        ];
        using var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            Put(archive, List, Manifest(items, dialect, Hash(files)));
            foreach (var (path, bytes) in files)
            {
                Put(archive, path, bytes);
            }
        }
        return stream.ToArray();
    }

    private static string Path(QuizItem item) => $"items/{item.Identifier}.xml";

    private static string Hash(IEnumerable<(string, byte[] Bytes)> files)
    {
        using var all = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var (_, bytes) in files)
        {
            all.AppendData(bytes);
        }
        return Convert.ToHexStringLower(all.GetHashAndReset())[..16];
    }

    private static void Put(ZipArchive archive, string path, byte[] bytes)
    {
        var entry = archive.CreateEntry(path, CompressionLevel.Optimal);
        entry.LastWriteTime = Always;
        using var written = entry.Open();
        written.Write(bytes);
    }

    private static byte[] Manifest(IReadOnlyList<QuizItem> items, QtiDialect dialect, string hash)
    {
        using var stream = new MemoryStream();
        var settings = new XmlWriterSettings
        {
            Encoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false),
            Indent = true,
            NewLineChars = "\n",
        };
        using (var xml = XmlWriter.Create(stream, settings))
        {
            xml.WriteStartElement("manifest", dialect.Manifest);
            xml.WriteAttributeString(
                "xsi",
                "schemaLocation",
                "http://www.w3.org/2001/XMLSchema-instance",
                $"{dialect.Manifest} {dialect.ManifestSchema}"
            );
            xml.WriteAttributeString("identifier", $"bank-{hash}");
            xml.WriteStartElement("metadata", dialect.Manifest);
            xml.WriteElementString("schema", dialect.Manifest, dialect.Schema);
            xml.WriteElementString("schemaversion", dialect.Manifest, dialect.SchemaVersion);
            xml.WriteEndElement();
            xml.WriteElementString("organizations", dialect.Manifest, "");
            xml.WriteStartElement("resources", dialect.Manifest);
            foreach (var item in items)
            {
                xml.WriteStartElement("resource", dialect.Manifest);
                xml.WriteAttributeString("identifier", item.Identifier);
                xml.WriteAttributeString("type", dialect.ResourceType);
                xml.WriteAttributeString("href", Path(item));
                xml.WriteStartElement("file", dialect.Manifest);
                xml.WriteAttributeString("href", Path(item));
                xml.WriteEndElement();
                xml.WriteEndElement();
            }
            xml.WriteEndElement();
            xml.WriteEndElement();
        }
        return stream.ToArray();
    }
}
