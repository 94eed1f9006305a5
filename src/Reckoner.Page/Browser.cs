using System.Numerics;
using System.Text.Json;
using Microsoft.JSInterop;
using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Drawing;
using Reckoner.Page.State;
using Reckoner.Questions;

namespace Reckoner.Page;

/// <summary>What the browser does for the page; all of it is in page.js.</summary>
public sealed class Browser(IJSRuntime script) : IKeeper, ICheckRunner
{
    private readonly IJSInProcessRuntime script = (IJSInProcessRuntime)script;
    private int jobs;

    /// <summary>What the page finds when it opens: the link's fragment, what was kept, and what the system prefers.</summary>
    public sealed record Found(string Fragment, string Kept, string Looks, bool IsDark);

    public Found Open(DotNetObjectReference<App> page) => script.Invoke<Found>("reckoner.open", page);

    public void Keep(string fragment) => script.InvokeVoid("reckoner.keep", fragment);

    public void KeepLooks(string looks) => script.InvokeVoid("reckoner.keepLooks", looks);

    /// <summary>Root attributes that the style sheets go by.</summary>
    public void Dress(string ground, bool isLarge, bool isPresenting, string language) =>
        script.InvokeVoid("reckoner.dress", ground, isLarge, isPresenting, language);

    /// <summary>Opens the figure at the moment that is looked at and puts the text there.</summary>
    public void Lay(object how) => script.InvokeVoid("reckoner.lay", how);

    /// <summary>Puts the keyboard into the cell that is written next.</summary>
    public void Follow() => script.InvokeVoid("reckoner.follow");

    /// <summary>Reads the file that was chosen in an input; the page hears of it as of a dropped one.</summary>
    public void ReadFrom(string id) => script.InvokeVoid("reckoner.readFrom", id);

    /// <summary>Sets what a field holds, whatever was typed there.</summary>
    public void Put(string id, string text) => script.InvokeVoid("reckoner.put", id, text);

    public void Focus(string id) => script.InvokeVoid("reckoner.focus", id);

    public void Save(string name, string type, string text) => script.InvokeVoid("reckoner.save", name, type, text);

    public ValueTask<bool> SavePicture(string name, string svg, double width, double height) =>
        script.InvokeAsync<bool>("reckoner.savePicture", name, svg, width, height);

    public ValueTask<bool> Copy(string text) => script.InvokeAsync<bool>("reckoner.copy", text);

    public void Print() => script.InvokeVoid("print");

    public void Full(bool on) => script.InvokeVoid("reckoner.full", on);

    /// <summary>The page's address without its fragment; empty where it was opened from a file.</summary>
    public string Address() => script.Invoke<string>("reckoner.address");

    /// <summary>The fonts that figures are measured with, so that what is drawn fits.</summary>
    public async Task LoadFonts()
    {
        foreach (var face in Enum.GetValues<Face>())
        {
            var typeface = Typeface.Of(face);
            await script.InvokeVoidAsync("reckoner.font", typeface.Family, typeface.Weight, typeface.Bytes.ToArray());
        }
    }

    /// <summary>One worker; the processor's other threads are left to the visitor.</summary>
    public int Threads => 1;

    public Diagnostic? Refusal => null;

    public IPlaneEngine Engine(PlaneProgram program, long steps) => InterpretedEngine.Widest;

    /// <summary>In a worker, which runs all steps of a program or none.</summary>
    public async Task<CoveredSteps> Run(
        CheckProgram program,
        long from,
        long to,
        Action<long>? covered,
        CancellationToken stop
    )
    {
        if (from != 0 || to != program.Space.Steps)
        {
            throw new ArgumentException("a worker runs all steps of a check", nameof(to));
        }
        var job = ++jobs;
        using var progress = DotNetObjectReference.Create(new Progress(to, covered));
        using var stopping = stop.Register(() => script.InvokeVoid("reckoner.stop", job));
        var answer = await script.InvokeAsync<string?>(
            "reckoner.check",
            job,
            WasmJob.Worker,
            WasmJob.Of(program),
            covered is null ? null : progress
        );
        return answer is null
            ? new CoveredSteps(0, [.. program.Sections.Select(s => new SectionCount(s.Section, 0, 0, null))], Method)
            : new CoveredSteps(to, Sections(program, answer), Method);
    }

    private const string Method = "worker";

    /// <summary>Hears from a worker how far it is.</summary>
    public sealed class Progress(long steps, Action<long>? covered)
    {
        [JSInvokable]
        public void Tell(double share) => covered?.Invoke((long)(share * steps));
    }

    private static List<SectionCount> Sections(CheckProgram program, string answer)
    {
        using var document = JsonDocument.Parse(answer);
        return
        [
            .. document
                .RootElement.GetProperty("sections")
                .EnumerateArray()
                .Select(
                    (s, i) =>
                        new SectionCount(
                            program.Sections[i].Section,
                            new BigInteger(s.GetProperty("cases").GetDouble()),
                            new BigInteger(s.GetProperty("failures").GetDouble()),
                            Smallest(program.Space, s.GetProperty("smallest"))
                        )
                ),
        ];
    }

    private static FailingCase? Smallest(CaseSpace space, JsonElement smallest)
    {
        if (smallest.ValueKind == JsonValueKind.Null)
        {
            return null;
        }
        List<BigInteger> operands =
        [
            .. smallest.GetProperty("operands").EnumerateArray().Select(o => new BigInteger(o.GetDouble())),
        ];
        return new FailingCase(operands, Rank.Of(space.Operands, operands));
    }
}
