using Reckoner.Notation;

namespace Reckoner.Refining;

/// <summary>
/// Two registers that are shifted the same way by as many places: where one leaves a place free in every round, the other lies in it.
/// Which end, how the entering bit comes in and what the last round does is tried; whether the two are ever in each other's way, the
/// trial says.
/// </summary>
internal static class ShareMove
{
    /// <summary>How the bit that enters the guest comes into the host.</summary>
    private enum Way
    {
        InShift,
        InShiftButLast,
        AfterShift,
        NothingEnters,
    }

    public static IEnumerable<Candidate> Of(Workshop workshop, Draft draft)
    {
        if (draft.Round is null)
        {
            yield break;
        }
        var registers = draft.Registers.Where(r => !r.Type.IsSigned).ToList();
        foreach (var guest in registers)
        {
            foreach (var host in registers.Where(r => r != guest))
            {
                if (Pair.Of(workshop, draft, guest, host) is { } pair)
                {
                    foreach (var candidate in pair.Candidates())
                    {
                        yield return candidate;
                    }
                }
            }
        }
    }

    private sealed record Pair(
        Workshop Workshop,
        Draft Draft,
        RegisterLine Guest,
        RegisterLine Host,
        Writing GuestShifts,
        Writing HostShifts
    )
    {
        private readonly Length guestWidth = Length.Of(Guest.Type.Width);
        private readonly Length hostWidth = Length.Of(Host.Type.Width);
        private readonly Shift guestShift = Shift.Of(GuestShifts.Transfer)!;
        private readonly Shift hostShift = Shift.Of(HostShifts.Transfer)!;

        private string HostName => Host.Name.Text;

        private string GuestName => Guest.Name.Text;

        /// <summary>Null where the two do not move alike.</summary>
        public static Pair? Of(Workshop workshop, Draft draft, RegisterLine guest, RegisterLine host)
        {
            if (
                Writing.Of(draft, guest.Name.Text) is not [{ Guards: [] } written]
                || Shift.Of(written.Transfer) is not { } shift
                || !shift.IsOf(guest.Name.Text)
                || Writing
                    .Of(draft, host.Name.Text)
                    .Where(w => Shift.Of(w.Transfer)?.Registers.Contains(host.Name.Text) == true)
                    .ToList()
                    is not [var moved]
            )
            {
                return null;
            }
            var other = Shift.Of(moved.Transfer)!;
            return other.IsLeft == shift.IsLeft && other.Distance == shift.Distance
                ? new Pair(workshop, draft, guest, host, written, moved)
                : null;
        }

        public IEnumerable<Candidate> Candidates()
        {
            if (IfPossible(() => Workshop.Sign(hostWidth - guestWidth) >= 0 ? this : null) is null)
            {
                yield break;
            }
            var places = hostWidth == guestWidth ? [0] : new[] { 0, hostWidth - guestWidth };
            foreach (var place in places)
            {
                foreach (var way in Enum.GetValues<Way>())
                {
                    if (IfPossible(() => Shared(place, way)) is { } shared)
                    {
                        yield return new Candidate(
                            MoveKind.Share,
                            [
                                new Reason(
                                    way == Way.InShiftButLast ? ReasonKind.SharedButLast : ReasonKind.Shared,
                                    ("host", new RegisterNames(HostName)),
                                    ("guest", new RegisterNames(GuestName)),
                                    ("place", place),
                                    ("way", hostShift.IsLeft ? "left" : "right")
                                ),
                            ],
                            shared
                        );
                    }
                }
            }
        }

        private static T? IfPossible<T>(Func<T?> made)
            where T : class
        {
            try
            {
                return made();
            }
            catch (BeyondMoveException)
            {
                return null;
            }
        }

        /// <summary>Null where this way is none for this pair.</summary>
        private Draft? Shared(Length place, Way way)
        {
            var entersEnd = hostShift.IsLeft ? place == 0 : place + guestWidth == hostWidth;
            var (nothing, isFree) = (Make.IsZero(guestShift.Enters), Make.IsZero(hostShift.Enters));
            var isLater = HostShifts.Moment >= GuestShifts.Moment;
            var isPossible = way switch
            {
                Way.InShift => entersEnd && isFree && isLater && !nothing,
                Way.InShiftButLast => entersEnd && isFree && isLater && HostShifts.Guards.Count == 1,
                Way.AfterShift => entersEnd
                    && !nothing
                    && (HostShifts.Moment < GuestShifts.Moment || HostShifts.Guards.Count > 0),
                Way.NothingEnters => nothing,
            };
            if (!isPossible)
            {
                return null;
            }
            var composer = Workshop.Composer(Draft);
            var host = Host with { Loads = composer.Loaded(Loads(composer, place), Draft.Operands) };
            var part = composer.Written([new SlicePiece(HostName, place, guestWidth)]);
            var shared = Draft with
            {
                Registers = [.. Draft.Registers.Where(r => r != Guest).Select(r => r == Host ? host : r)],
                Parts = [.. Draft.Parts.Where(p => !Statements.Mentions(p.Slice, n => n == GuestName))],
            };
            shared = shared.WithRound(Moments(composer, place, way, part));
            shared = shared.Mapped(v =>
                Mapping.Deep(v, e => e is NameReference { Name: var n } && n == GuestName ? part : e)
            );
            return Workshop.Rewritten(shared, shared.Registers);
        }

        /// <summary>What both load, side by side: where one is not zero, the other is.</summary>
        private Piece[] Loads(Composer composer, Length place)
        {
            var above = hostWidth - guestWidth - place;
            var guest = composer.Join(
                Composer.Zeros(above),
                composer.Read(Guest.Loads, guestWidth),
                Composer.Zeros(place)
            );
            return composer.Join(
                composer
                    .Aligned(composer.Read(Host.Loads, hostWidth), guest)
                    .Select(pair =>
                        pair.A.All(p => p.IsZero) ? pair.B
                        : pair.B.All(p => p.IsZero) ? pair.A
                        : throw new BeyondMoveException("both load something there")
                    )
            );
        }

        private IEnumerable<IReadOnlyList<Statement>> Moments(Composer composer, Length place, Way way, Expression part)
        {
            var enters = guestShift.Enters;
            var moments = Draft.Round!.Moments.Select(m => Mapping.Replaced(m.Statements, GuestShifts.Transfer, []));
            var old = HostShifts.Transfer;
            var call = (Call)Make.Bare(old.Value);
            var changed = old with { Value = Make.Call(call.Function, call.Arguments[0], enters) };
            switch (way)
            {
                case Way.InShift:
                    return moments.Select(m => Mapping.Replaced(m, old, [changed]));
                case Way.InShiftButLast:
                    var alone = Make.Transfer([part], Make.Call(call.Function, part, enters));
                    return moments.Select(m =>
                        (IReadOnlyList<Statement>)[.. m.Select(s => Either(s, old, changed, alone))]
                    );
                case Way.AfterShift:
                    var bit = composer.Slice(
                        [new SlicePiece(HostName, place, guestWidth)],
                        hostShift.IsLeft ? 0 : guestWidth - guestShift.Distance,
                        guestShift.Distance
                    );
                    var list = moments.Where(m => m.Count > 0).ToList();
                    var at = Math.Min(GuestShifts.Moment, list.Count - 1);
                    list[at] = [.. list[at], Make.Transfer([composer.Written(bit)], enters)];
                    return list;
                case Way.NothingEnters:
                    return moments;
                default:
                    throw new InvalidOperationException(way.ToString());
            }
        }

        /// <summary>The branch in which the host moves, with the guest alone moving where it does not.</summary>
        private static Statement Either(Statement statement, Statement old, Statement changed, Statement alone)
        {
            if (statement is not IfBlock { Otherwise: null } branch || !branch.Then.Any(s => ReferenceEquals(s, old)))
            {
                return statement;
            }
            var moves = Mapping.Replaced(branch.Then, old, [changed]);
            return Make.Bare(branch.Condition) is Unary { Operator: UnaryOperator.Not } not
                ? Make.If(not.Operand, [alone], moves)
                : branch with
                {
                    Then = moves,
                    Otherwise = [alone],
                };
        }
    }
}
