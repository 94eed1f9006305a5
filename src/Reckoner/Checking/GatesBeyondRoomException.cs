namespace Reckoner.Checking;

/// <summary>A machine, laid out cycle by cycle, takes more gates than are made.</summary>
internal sealed class GatesBeyondRoomException(int most) : NotSupportedException($"more than {most} gates")
{
    public int Most { get; } = most;
}
