namespace Reckoner.Documents.HandedIn;

/// <summary>Something holds more than anybody fills in.</summary>
internal sealed class TooMuchException : Exception
{
    public TooMuchException()
        : base("more than is read") { }
}
