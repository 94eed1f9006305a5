using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace Reckoner.Hdl;

/// <summary>
/// Gives names that may stand in hardware text: of Verilog and of VHDL, where capital letters make no difference, alike. Those of the
/// surround are taken first.
/// </summary>
internal sealed class HdlNames
{
    /// <summary>Words with a meaning of their own: IEEE 1800-2017 annex B, with IEEE 1364-2005 in it, and IEEE 1076-2008 15.10.</summary>
    private static readonly FrozenSet<string> Reserved = (
        "abs access after alias all always and architecture array assert assign assume assume_guarantee attribute automatic "
        + "begin bit block body bool buf buffer bufif0 bufif1 bus byte case casex casez cell cmos config configuration "
        + "component constant context cover deassign default defparam design disable disconnect do downto edge else elsif "
        + "end endcase endconfig endfunction endgenerate endmodule endprimitive endspecify endtable endtask entity enum "
        + "event exit fairness file final for force forever fork function generate generic genvar group guarded highz0 "
        + "highz1 if ifnone impure in incdir include inertial initial inout input instance int integer interface is join "
        + "label large liblist library linkage literal localparam logic longint loop macromodule map medium mod module nand "
        + "negedge new next nmos nor noshowcancelled not notif0 notif1 null of on open or others out output package "
        + "parameter pmos port posedge postponed primitive priority procedure process program property protected pull0 "
        + "pull1 pulldown pullup pulsestyle_ondetect pulsestyle_onevent pure range rcmos real realtime record ref reg "
        + "register reject release rem repeat report restrict restrict_guarantee return rnmos rol ror rpmos rtran rtranif0 "
        + "rtranif1 scalared select sequence severity shared shortint showcancelled signal signed sla sll small specify "
        + "specparam sra srl static strong strong0 strong1 struct subtype supply0 supply1 table task then this time to "
        + "tran tranif0 tranif1 transport tri tri0 tri1 triand trior trireg type unaffected union unique units unsigned "
        + "until use variable vectored virtual vmode vprop vunit void wait wand weak0 weak1 when while wire with wor xnor "
        + "xor bench boolean bit_vector character ieee natural positive std std_logic std_logic_vector std_match string "
        + "true false work accept_on always_comb always_ff always_latch before bind bins binsof break chandle checker class "
        + "clocking const constraint continue covergroup coverpoint cross dist endchecker endclass endclocking endgroup "
        + "endinterface endpackage endprogram endproperty endsequence eventually expect export extends extern first_match "
        + "foreach forkjoin global iff ignore_bins illegal_bins implements implies import inside int interconnect intersect "
        + "let local matches modport nettype nexttime packed protected rand randc randcase randsequence reject_on s_always "
        + "s_eventually s_nexttime s_until s_until_with soft solve super sync_accept_on sync_reject_on tagged throughout "
        + "timeprecision timeunit typedef unique0 until_with untyped var wait_order wildcard within"
    )
        .Split(' ')
        .ToFrozenSet(StringComparer.OrdinalIgnoreCase);

    private readonly HashSet<string> taken = new(StringComparer.OrdinalIgnoreCase);
    private readonly HashSet<string> described = [];
    private readonly List<(string Wanted, string Given)> changed = [];

    /// <summary>Names of the description that had to become others, in the order in which they were asked for.</summary>
    public IReadOnlyList<(string Wanted, string Given)> Changed => changed;

    /// <summary>A name of our own; another where it is taken.</summary>
    public string New(string wanted)
    {
        var clean = Clean(wanted);
        var name = clean;
        for (var number = 2; Reserved.Contains(name) || !taken.Add(name); number++)
        {
            name = $"{clean}_{number}";
        }
        return name;
    }

    /// <summary>The name of something that the description names; what it names in several steps is told apart by a number.</summary>
    public string Of(string wanted)
    {
        var given = New(wanted);
        if (described.Add(wanted) && given != wanted)
        {
            changed.Add((wanted, given));
        }
        return given;
    }

    /// <summary>Letters of English, digits and single strokes between them, beginning with a letter.</summary>
    private static string Clean(string name)
    {
        var clean = new StringBuilder();
        foreach (var rune in name.EnumerateRunes())
        {
            var piece =
                rune.IsAscii && Rune.IsLetterOrDigit(rune) ? rune.ToString()
                : rune.IsAscii ? "_"
                : "u" + rune.Value.ToString("x", CultureInfo.InvariantCulture);
            if (piece != "_" || (clean.Length > 0 && clean[^1] != '_'))
            {
                clean.Append(piece);
            }
        }
        var whole = clean.ToString().TrimEnd('_');
        return whole.Length > 0 && char.IsAsciiLetter(whole[0]) ? whole : "m" + whole;
    }
}
