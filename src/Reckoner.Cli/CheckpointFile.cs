using System.Text;
using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Reporting;
using Reckoner.Running;

namespace Reckoner.Cli;

/// <summary>
/// The file in which --resume keeps what a check has covered: whole whenever it is looked at, since each state is written beside it
/// and put in its place. A file that is there and is no checkpoint of the same check is left alone.
/// </summary>
internal sealed class CheckpointFile(Session session, Request request, RequestWord file)
{
    private bool isBegun;
    private bool isComplained;

    /// <summary>What an earlier run left; null where there is no file yet, or with the reason in the request's report.</summary>
    public static Checkpoint? Read(Request request, RequestWord file)
    {
        if (
            !OutputFile.MayBe(request, file, [file.Text], replaces: true)
            || !File.Exists(file.Text)
            || MachineFiles.ReadNamed(file.Text, file, request.Report) is not { } text
        )
        {
            return null;
        }
        var (checkpoint, format) = CheckpointJson.Read(text);
        if (format is not null)
        {
            request.Report.Add(
                Id.CheckpointFormat,
                file.Span,
                ("file", file.Text),
                ("format", format),
                ("known", PartReader.Format)
            );
        }
        else if (checkpoint is null)
        {
            request.Report.Add(Id.NotACheckpoint, file.Span, ("file", file.Text));
        }
        return checkpoint;
    }

    /// <summary>Puts a state in the place of the one before; says why it could not, while the check runs once on the error stream.</summary>
    public Diagnostic? Keep(Checkpoint checkpoint)
    {
        try
        {
            var bytes = Encoding.UTF8.GetBytes(CheckpointJson.Of(checkpoint));
            new FileExchange(session.Disk, replaces: true).Put([NewFile.Of(file.Text, bytes)]);
            isBegun = true;
            return null;
        }
        catch (Exception e) when (Disk.IsTrouble(e))
        {
            (string, object)[] facts = [("file", file.Text), ("reason", Trouble.Of(e))];
            if (isBegun && !isComplained)
            {
                isComplained = true;
                session.Remark([Said(Id.CheckpointUnwritten)]);
            }
            return Said(Id.FileUnwritable);

            Diagnostic Said(Id id) => new(id, request.Line, file.Span, [.. facts.Select(f => (Fact)f)]);
        }
    }
}
