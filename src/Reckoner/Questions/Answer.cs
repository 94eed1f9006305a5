using System.Diagnostics.CodeAnalysis;
using Reckoner.Diagnostics;

namespace Reckoner.Questions;

/// <summary>What a question got: data, or what stands against it. What is remarked beside is found in both cases.</summary>
public sealed class Answer<T>
    where T : class
{
    internal Answer(T? data, IReadOnlyList<Finding> found)
    {
        Data = data;
        Found = found;
    }

    /// <summary>Null where the question was refused.</summary>
    public T? Data { get; }

    /// <summary>What is wrong, and remarks, in the order in which they were found.</summary>
    public IReadOnlyList<Finding> Found { get; }

    [MemberNotNullWhen(true, nameof(Data))]
    public bool IsGiven => Data is not null;

    /// <summary>What is wrong; empty where there is data.</summary>
    public IEnumerable<Finding> Refusals => Found.Where(f => f.Diagnostic.Severity == Severity.Error);

    /// <summary>The same with other data made from these; a refusal stays one.</summary>
    internal Answer<TOther> Then<TOther>(Func<T, TOther> made)
        where TOther : class => new(Data is null ? null : made(Data), Found);

    internal static Answer<T> Given(T data, IReadOnlyList<Finding> remarks) => new(data, remarks);

    /// <param name="found">One error at least.</param>
    internal static Answer<T> Refused(IReadOnlyList<Finding> found) => new(null, found);
}
