using Reckoner.Diagnostics;

namespace Reckoner.Engines;

/// <summary>A graphics processor did not do what was asked of it.</summary>
/// <param name="processor">Its name, or what stands for it where none was reached.</param>
/// <param name="reason">A term of the words.</param>
internal sealed class GraphicsException(string processor, Term reason) : Exception($"{processor}: {reason.Key}")
{
    public Diagnostic Diagnostic { get; } =
        new(Id.GraphicsTrouble, null, default, [("processor", processor), ("reason", reason)]);
}
