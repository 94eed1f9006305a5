using Reckoner.Measuring;
using Reckoner.Notation;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>One machine explained: its description in canonical form, or its hardware at chosen widths.</summary>
internal static class ShowText
{
    public static string Of(Hardware hardware, bool withHardware, bool asJson, Vocabulary words, int columns)
    {
        var datapath = hardware.Datapath;
        if (asJson)
        {
            return ShowJson.Of(hardware, words);
        }
        if (!withHardware)
        {
            return Printer.Text(datapath.Machine.Description);
        }
        return DocumentText.Of(HardwareDocument.Of(hardware, words), columns);
    }
}
