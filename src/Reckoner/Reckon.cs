using System.Diagnostics.CodeAnalysis;
using System.Numerics;
using System.Runtime.CompilerServices;
using Reckoner.Binding;
using Reckoner.Catalogue;
using Reckoner.Checking;
using Reckoner.Costing;
using Reckoner.Datapaths;
using Reckoner.Drawing;
using Reckoner.Execution;
using Reckoner.Explaining;
using Reckoner.Invariants;
using Reckoner.Measuring;
using Reckoner.Questions;
using Reckoner.Refining;
using Reckoner.Running;
using Reckoner.Slips;
using Reckoner.Structure;
using Reckoner.Words;

namespace Reckoner;

/// <summary>
/// The front door: everything Reckoner does, by the verbs of the command. A machine is read once, from a text or out of the
/// catalogue; a question about it is answered with data, or refused with findings that say what is wrong and where. Nothing here
/// reads or writes files, looks at a clock of its own, or keeps anything from one call to the next; all of it may be called from
/// several threads.
/// </summary>
public static class Reckon
{
    /// <summary>The machines that come along, in the order of their names within each family.</summary>
    public static IReadOnlyList<CatalogueEntry> List() => MachineCatalogue.Entries;

    /// <summary>A machine of the catalogue; its widths are still symbols.</summary>
    /// <exception cref="ArgumentException">There is none of that name.</exception>
    public static Machine Machine(string name) =>
        MachineCatalogue.Find(NotNull(name)) is { } source
            ? Binding.Machine.Read(source, MachineCatalogue.Find)
            : throw new ArgumentException(NoMachine(name), nameof(name));

    private static string NoMachine(string name)
    {
        var near = Diagnostics.NearNames.Of(name, MachineCatalogue.Entries.Select(e => e.Name));
        var other = near.Count > 0 ? $" Near: {string.Join(", ", near)}." : "";
        return $"The catalogue has no machine named '{name}'; List() has them all.{other}";
    }

    /// <summary>
    /// A machine from the text of its description. Reading never throws: what is wrong with the sentences stands in
    /// <see cref="Machine.Found"/>, and every question about such a machine is refused with it.
    /// </summary>
    /// <param name="text">The description, up to 200,000 characters.</param>
    /// <param name="name">What the text is called where something is said about a place in it, such as its file.</param>
    /// <param name="library">Finds the texts of machines that this one names; without it, those of the catalogue are known.</param>
    public static Machine Read(string text, string name = "description", Library? library = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(name);
        return Binding.Machine.Read(new Source(name, text), library ?? MachineCatalogue.Find);
    }

    /// <summary>The machine at its widths: registers, units, steps, laws. Widths outside the machine's range are refused.</summary>
    public static Answer<Datapath> Bind(AskedMachine machine) => NotNull(machine).Bind();

    /// <summary>
    /// What every register holds after every cycle, why, and whether the laws hold, for one set of operands: numbers as the
    /// operands are read, so that a signed one may be negative. Too many, too few, and those that do not fit are refused, and so
    /// are operands outside "given".
    /// </summary>
    /// <param name="operands">In the order of the text (29, 6) or by name ("divisor=6").</param>
    public static Answer<Walk> Walk(AskedMachine machine, params IReadOnlyList<AskedOperand> operands) =>
        new WalkQuestion(NotNull(machine)) { Operands = NotNull(operands) }.Ask();

    /// <summary>
    /// One clock edge from any register state, reached or not: what the registers hold after it and what happened. The state and
    /// the address are checked against the machine.
    /// </summary>
    /// <param name="registers">Bits of each register in the order of the text, from 0 to 2^width - 1.</param>
    /// <exception cref="ArgumentException">The number of registers is another, or one does not fit.</exception>
    public static Row Step(Datapath datapath, IReadOnlyList<BigInteger> registers, CycleAddress cycle) =>
        SingleStep.Of(NotNull(datapath), NotNull(registers), cycle);

    /// <summary>Two to five machines beside each other: what they are built of, and what happens to the same operands in each.</summary>
    public static Answer<Compared> Compare(
        IReadOnlyList<AskedMachine> machines,
        params IReadOnlyList<AskedOperand> operands
    ) => new CompareQuestion([.. NotNull(machines).Select(m => NotNull(m))]) { Operands = NotNull(operands) }.Ask();

    /// <summary>
    /// Whether what a machine claims holds for every operand at its widths; the smallest operands for which it does not. More
    /// operands than the budget has are refused with an estimate, before any is tried.
    /// </summary>
    public static Task<Answer<CheckReports>> Check(CheckQuestion question, Means means) =>
        Whole(question, question?.Machine).Ask(Whole(means));

    /// <summary>What each single slip in a machine would break, and the smallest operands that show it.</summary>
    public static Answer<SlipStudy> Slips(SlipsQuestion question, Means means) =>
        Whole(question, question?.Machine).Ask(Whole(means));

    /// <summary>
    /// What is so for every operand at every width, proved and verified, with what holds in every round; of what is not proved
    /// operands for which it does not hold, if some are found. It takes up to two minutes.
    /// </summary>
    public static Answer<Proved> Prove(AskedMachine machine, Means means) =>
        new ProveQuestion(NotNull(machine)).Ask(Whole(means)).Then(Proved.Of);

    /// <summary>Whether this is what holds in every round, and is enough: false, not enough to go on, too weak, or the proof.</summary>
    /// <param name="invariant">As proofs print it: "2^(n-i) * Q * divisor + R = dividend and D = divisor".</param>
    public static Answer<Guessed> Guess(AskedMachine machine, string invariant, Means means) =>
        new GuessQuestion(NotNull(machine), NotNull(invariant)).Ask(Whole(means));

    /// <summary>
    /// Why somebody got other results or rows than the right ones: the fewest causes that give just that, the likeliest first.
    /// </summary>
    public static Answer<Verdict> Why(WhyQuestion question) => Whole(question, question?.Machine).Ask();

    /// <summary>Operands that show what is wanted, that expose slips, or that are of equal difficulty.</summary>
    public static Answer<OperandsFound> Operands(OperandsQuestion question, Means means) =>
        Whole(question, question?.Machine).Ask(Whole(means));

    /// <summary>Operands of equal difficulty for each student of a list, from a secret.</summary>
    public static Answer<HandedOut> HandOut(HandOutQuestion question, Means means) =>
        Whole(question, question?.Machine).Ask(Whole(means));

    /// <summary>Which register bits are not in use in which cycle, tried with all operands or read off the wiring.</summary>
    public static Answer<IdleStudy> Idle(IdleQuestion question, Means means) =>
        Whole(question, question?.Machine).Ask(Whole(means));

    /// <summary>The hardware of a machine, counted: registers, units, choices, decisions, control, cycles.</summary>
    public static Answer<Hardware> Hardware(AskedMachine machine) => new HardwareQuestion(NotNull(machine)).Ask();

    /// <summary>What up to five machines cost in the unit-gate model: area by part, the longest path of each cycle, clock, time.</summary>
    public static Answer<IReadOnlyList<MachineCost>> Cost(CostQuestion question) =>
        Whole(question, question?.Machines).Ask();

    /// <summary>
    /// What could be saved in a machine: versions that cost less and give the same for every operand that was run, each with its
    /// description, the best first. A machine that does not keep its laws is refused with the smallest operands.
    /// </summary>
    public static Answer<Refined> Refine(RefineQuestion question, Means means) =>
        Whole(question, question?.Machine).Ask(Whole(means));

    /// <summary>The states of a machine's control unit: what each does under which conditions, and which follows when.</summary>
    public static Answer<ControlStates> States(AskedMachine machine) => new StatesQuestion(NotNull(machine)).Ask();

    /// <summary>A figure of a walk, or of machines at rest, as one SVG text for each page.</summary>
    /// <param name="palette">Light unless said otherwise.</param>
    public static Answer<IReadOnlyList<string>> Draw(DrawQuestion question, Means means, Palette? palette = null)
    {
        var answer = Whole(question, question?.Machines).Ask(Whole(means));
        return answer.Then<IReadOnlyList<string>>(figure =>
            [.. figure.Pages().SelectMany(p => p).Select(scene => SvgWriter.Write(scene, palette ?? Palette.Light))]
        );
    }

    /// <summary>What was found wrong or remarkable, in words, as the command says it; hints are left to whoever explains a description.</summary>
    /// <param name="language">A language whose words are known, such as "en" or "de".</param>
    /// <param name="columns">The characters of a line, 40 at least.</param>
    /// <exception cref="ArgumentException">The language is not known.</exception>
    public static string Say(IReadOnlyList<Finding> found, string language = "en", int columns = 80)
    {
        ArgumentNullException.ThrowIfNull(found);
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 40);
        var words =
            Vocabulary.Of(language)
            ?? throw new ArgumentException($"There are no words of the language '{language}'.", nameof(language));
        var told = found.Select(f => f.Diagnostic).Where(d => d.Severity != Diagnostics.Severity.Hint);
        return Reporting.DiagnosticText.Of([.. told], words, columns, "place.question");
    }

    private static T NotNull<T>([NotNull] T? argument, [CallerArgumentExpression(nameof(argument))] string name = "")
        where T : class
    {
        ArgumentNullException.ThrowIfNull(argument, name);
        return argument;
    }

    /// <summary>A question with the machine, or the machines, that it is about.</summary>
    private static T Whole<T>([NotNull] T? question, object? about)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(about, nameof(question));
        return question;
    }

    private static Means Whole(Means means)
    {
        ArgumentNullException.ThrowIfNull(means);
        ArgumentNullException.ThrowIfNull(means.Runner, nameof(means));
        ArgumentNullException.ThrowIfNull(means.Clock, nameof(means));
        return means;
    }
}
