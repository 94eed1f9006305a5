using Reckoner.Checking;
using Reckoner.Datapaths;

namespace Reckoner.Reporting;

/// <summary>
/// What register bits carry as marks: # carries something, 0 and 1 are the same for all operands, - is not looked at any more.
/// </summary>
internal static class IdleMarks
{
    /// <summary>A mark per bit of a register, the most significant first.</summary>
    public static string Of(IdleRow row, Register register) =>
        string.Concat(row.Bits[register.Index].Reverse().Select(Mark));

    /// <summary>The same, cut where the register's parts end.</summary>
    public static string InParts(IdleRow row, Register register)
    {
        var marks = Of(row, register);
        var ends = Columns.Cuts(register).Select(low => register.Width - low).Prepend(0).ToList();
        return string.Join(' ', ends.Zip(ends.Skip(1), (from, to) => marks[from..to]));
    }

    private static char Mark(Carried carried) =>
        carried switch
        {
            Carried.Something => '#',
            Carried.AlwaysZero => '0',
            Carried.AlwaysOne => '1',
            Carried.Unread => '-',
        };
}
