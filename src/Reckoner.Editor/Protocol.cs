using System.Text.Json.Serialization;

namespace Reckoner.Editor;

// Records of the Language Server Protocol 3.17, as far as they are used. Lines and characters count from 0, characters in UTF-16.

internal sealed record Position(int Line, int Character);

internal sealed record TextRange(Position Start, Position End);

internal sealed record Location(string Uri, TextRange Range);

internal sealed record TextEdit(TextRange Range, string NewText);

internal sealed record DocumentId(string Uri, int? Version = null);

internal sealed record OpenedText(string Uri, int Version, string Text);

internal sealed record Initialize(
    InitializationOptions? InitializationOptions = null,
    ClientCapabilities? Capabilities = null
);

internal sealed record ClientCapabilities(WorkspaceCapabilities? Workspace = null);

internal sealed record WorkspaceCapabilities(EditCapabilities? WorkspaceEdit = null);

/// <param name="DocumentChanges">Whether changes may say for which version of a text they are.</param>
internal sealed record EditCapabilities(bool? DocumentChanges = null);

/// <param name="Width">As behind --width; null for each description's own.</param>
/// <param name="Language">A language whose words are known.</param>
internal sealed record InitializationOptions(string? Width = null, string? Language = null);

internal sealed record DidOpen(OpenedText TextDocument);

internal sealed record DidChange(DocumentId TextDocument, IReadOnlyList<TextChange> ContentChanges);

/// <param name="Range">Null where the whole text is another.</param>
internal sealed record TextChange(string Text, TextRange? Range = null);

/// <summary>Something asked of a whole document.</summary>
internal sealed record AboutDocument(DocumentId TextDocument);

/// <summary>Something asked of a place in it.</summary>
internal sealed record AboutPlace(DocumentId TextDocument, Position Position);

internal sealed record AboutRange(DocumentId TextDocument, TextRange Range);

internal sealed record Rename(DocumentId TextDocument, Position Position, string NewName);

internal sealed record References(DocumentId TextDocument, Position Position, ReferencesContext? Context = null);

internal sealed record ReferencesContext(bool IncludeDeclaration);

internal sealed record Markup(string Kind, string Value);

internal sealed record Hover(Markup Contents);

internal sealed record CompletionItem(string Label, CompletionKind Kind, string? Detail);

internal enum CompletionKind
{
    Function = 3,
    Field = 5,
    Variable = 6,
    Module = 9,
    Unit = 11,
    Keyword = 14,
    Constant = 21,
}

/// <summary>One of both.</summary>
internal sealed record WorkspaceEdit(
    IReadOnlyDictionary<string, IReadOnlyList<TextEdit>>? Changes = null,
    IReadOnlyList<DocumentEdit>? DocumentChanges = null
);

internal sealed record DocumentEdit(VersionedDocument TextDocument, IReadOnlyList<TextEdit> Edits);

/// <param name="Version">Null for a text that is not open; the protocol wants that said.</param>
internal sealed record VersionedDocument(
    string Uri,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] int? Version
);

internal sealed record CodeAction(
    string Title,
    string Kind,
    IReadOnlyList<Note> Diagnostics,
    WorkspaceEdit Edit,
    bool IsPreferred
);

internal sealed record DocumentSymbol(
    string Name,
    string? Detail,
    SymbolKind Kind,
    TextRange Range,
    TextRange SelectionRange,
    IReadOnlyList<DocumentSymbol> Children
);

internal enum SymbolKind
{
    Module = 2,
    Method = 6,
    Property = 7,
    Field = 8,
    Function = 12,
    Variable = 13,
    Constant = 14,
    Array = 18,
    Event = 24,
    Parameter = 26,
}

internal sealed record FoldingRange(int StartLine, int EndLine);

/// <summary>What the protocol calls a diagnostic.</summary>
internal sealed record Note(TextRange Range, NoteSeverity Severity, string Code, string Source, string Message);

internal enum NoteSeverity
{
    Error = 1,
    Warning = 2,
    Information = 3,
    Hint = 4,
}

internal sealed record PublishDiagnostics(string Uri, int? Version, IReadOnlyList<Note> Diagnostics);

internal sealed record ServerInfo(string Name, string? Version);

internal sealed record Initialized(Capabilities Capabilities, ServerInfo ServerInfo);

internal sealed record Capabilities
{
    public string PositionEncoding { get; } = "utf-16";

    /// <summary>Opened and closed is told; changes come as stretches.</summary>
    public object TextDocumentSync { get; } = new { OpenClose = true, Change = 2 };
    public bool HoverProvider { get; } = true;
    public bool DefinitionProvider { get; } = true;
    public bool ReferencesProvider { get; } = true;
    public bool DocumentFormattingProvider { get; } = true;
    public bool DocumentSymbolProvider { get; } = true;
    public bool FoldingRangeProvider { get; } = true;
    public object CompletionProvider { get; } = new { };
    public object RenameProvider { get; } = new { PrepareProvider = true };
    public object CodeActionProvider { get; } = new { CodeActionKinds = new[] { "quickfix" } };
}
