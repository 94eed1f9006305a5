using Reckoner.Styles;

namespace Reckoner.Cli;

/// <summary>A request of a lesson on its way to the verb that answers it.</summary>
/// <param name="Style">The lesson's, for every table.</param>
internal sealed record LessonAsking(Session Session, Request Request, HouseStyle Style);
