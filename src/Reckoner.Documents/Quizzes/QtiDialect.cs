namespace Reckoner.Documents.Quizzes;

/// <summary>
/// What one version of QTI calls things. Elements and attributes are those of version 2.1; version 3 writes the same names in small
/// letters with hyphens, elements behind a prefix.
/// </summary>
/// <param name="Item">The namespace of items, <paramref name="ItemSchema"/> where its schema is published.</param>
/// <param name="Manifest">The namespace of the list of contents, likewise.</param>
/// <param name="Schema">What that list says of itself, with its version.</param>
/// <param name="ResourceType">What an item is called there.</param>
/// <param name="HasHyphens">Whether names are those of version 3.</param>
internal sealed record QtiDialect(
    string Item,
    string ItemSchema,
    string Manifest,
    string ManifestSchema,
    string Schema,
    string SchemaVersion,
    string ResourceType,
    bool HasHyphens
)
{
    /// <summary>QTI 2.1, the version that most learning platforms read.</summary>
    public static readonly QtiDialect Version21 = new(
        "http://www.imsglobal.org/xsd/imsqti_v2p1",
        "http://www.imsglobal.org/xsd/qti/qtiv2p1/imsqti_v2p1.xsd",
        "http://www.imsglobal.org/xsd/imscp_v1p1",
        "http://www.imsglobal.org/xsd/qti/qtiv2p1/qtiv2p1_imscpv1p2_v1p0.xsd",
        "QTIv2.1 Package",
        "1.0.0",
        "imsqti_item_xmlv2p1",
        HasHyphens: false
    );

    public static readonly QtiDialect Version3 = new(
        "http://www.imsglobal.org/xsd/imsqtiasi_v3p0",
        "https://purl.imsglobal.org/spec/qti/v3p0/schema/xsd/imsqti_asiv3p0_v1p0.xsd",
        "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1",
        "https://purl.imsglobal.org/spec/qti/v3p0/schema/xsd/imsqtiv3p0_imscpv1p2_v1p0.xsd",
        "QTI Package",
        "3.0.0",
        "imsqti_item_xmlv3p0",
        HasHyphens: true
    );

    public string Element(string name) => HasHyphens ? "qti-" + Hyphens(name) : name;

    public string Attribute(string name) => HasHyphens ? Hyphens(name) : name;

    private static string Hyphens(string name) =>
        string.Concat(name.Select(c => char.IsAsciiLetterUpper(c) ? $"-{char.ToLowerInvariant(c)}" : $"{c}"));
}
