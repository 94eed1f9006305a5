using System.Reflection;

namespace Reckoner.Diagnostics;

/// <summary>
/// The table of diagnostics: each has a word for a name, explicit and never reused. The words file holds its sentences under
/// "diagnostic.NAME" (what was found) and "diagnostic.NAME.try" (what to do), the handbook a wrong and a mended example.
/// </summary>
public sealed record Id(string Name, Severity Severity = Severity.Error)
{
    // The text as such
    public static readonly Id OddCharacter = new("odd-character");
    public static readonly Id HiddenCharacter = new("hidden-character");
    public static readonly Id UnclosedQuote = new("unclosed-quote");
    public static readonly Id UnclosedBracket = new("unclosed-bracket");
    public static readonly Id BracketUnmatched = new("bracket-unmatched");
    public static readonly Id LiteralTooLong = new("literal-too-long");
    public static readonly Id UnderscorePlace = new("underscore-place");
    public static readonly Id DescriptionTooLong = new("description-too-long");
    public static readonly Id NestingTooDeep = new("nesting-too-deep");

    // Sentences
    public static readonly Id ElseExpected = new("else-expected");
    public static readonly Id WordExpected = new("word-expected");
    public static readonly Id NameExpected = new("name-expected");
    public static readonly Id NameOfWords = new("name-of-words");
    public static readonly Id NameNotFile = new("name-not-file");
    public static readonly Id ReservedWord = new("reserved-word");
    public static readonly Id ValueExpected = new("value-expected");
    public static readonly Id QuoteExpected = new("quote-expected");
    public static readonly Id LineGoesOn = new("line-goes-on");
    public static readonly Id UnknownDeclaration = new("unknown-declaration");
    public static readonly Id NoStatement = new("no-statement");
    public static readonly Id StatementOutside = new("statement-outside");
    public static readonly Id EndMissing = new("end-missing");
    public static readonly Id EndExtra = new("end-extra");
    public static readonly Id RepeatInside = new("repeat-inside");
    public static readonly Id MachineFirst = new("machine-first");
    public static readonly Id SaidTwice = new("said-twice");
    public static readonly Id WidthMissing = new("width-missing");
    public static readonly Id LabelExpected = new("label-expected");
    public static readonly Id UnknownUnitKind = new("unknown-unit-kind");
    public static readonly Id BracketsNeeded = new("brackets-needed");
    public static readonly Id ComparisonChain = new("comparison-chain");
    public static readonly Id ArrowInValue = new("arrow-in-value");
    public static readonly Id PowerUnclear = new("power-unclear");
    public static readonly Id ShiftOperator = new("shift-operator");
    public static readonly Id EqualsTwice = new("equals-twice");
    public static readonly Id AssignmentSign = new("assignment-sign");
    public static readonly Id NoRemainder = new("no-remainder");
    public static readonly Id NotInside = new("not-inside");
    public static readonly Id WhileUnbounded = new("while-unbounded");
    public static readonly Id ThenAfterCondition = new("then-after-condition");
    public static readonly Id StepInside = new("step-inside");

    // Names
    public static readonly Id DeclaredTwice = new("declared-twice");
    public static readonly Id UnknownName = new("unknown-name");
    public static readonly Id UnknownFunction = new("unknown-function");
    public static readonly Id UnknownMachine = new("unknown-machine");
    public static readonly Id MachineCircle = new("machine-circle");
    public static readonly Id NameIsFunction = new("name-is-function");

    // Numbers
    public static readonly Id HardwareInFormula = new("hardware-in-formula");
    public static readonly Id NumberNeeded = new("number-needed");
    public static readonly Id TruthNeeded = new("truth-needed");
    public static readonly Id RegisterInLaw = new("register-in-law");
    public static readonly Id NotWhole = new("not-whole");
    public static readonly Id NumberTooLarge = new("number-too-large");
    public static readonly Id DivisionByZero = new("division-by-zero");
    public static readonly Id NoLogarithm = new("no-logarithm");
    public static readonly Id LogarithmBare = new("logarithm-bare");
    public static readonly Id WidthOutOfRange = new("width-out-of-range");
    public static readonly Id RangeTurned = new("range-turned");
    public static readonly Id UnknownWidth = new("unknown-width");
    public static readonly Id DoesNotFit = new("does-not-fit");

    // Formulas
    public static readonly Id FormulaCircle = new("formula-circle");
    public static readonly Id FormulaTooDeep = new("formula-too-deep");
    public static readonly Id FormulaTooLarge = new("formula-too-large");
    public static readonly Id FormulaElsewhere = new("formula-elsewhere");
    public static readonly Id FormulaAsValue = new("formula-as-value");
    public static readonly Id RangeTooLong = new("range-too-long");
    public static readonly Id RangeVaries = new("range-varies");

    // Registers, parts, tables
    public static readonly Id NoBits = new("no-bits");
    public static readonly Id TooManyBits = new("too-many-bits");
    public static readonly Id NotAPart = new("not-a-part");
    public static readonly Id SliceEmpty = new("slice-empty");
    public static readonly Id SliceOutside = new("slice-outside");
    public static readonly Id TableTooLarge = new("table-too-large");
    public static readonly Id TableHole = new("table-hole");
    public static readonly Id TableValueTooWide = new("table-value-too-wide");
    public static readonly Id TableDeadRow = new("table-dead-row");

    // Machines in machines, lineage
    public static readonly Id CoreNotFirst = new("core-not-first");
    public static readonly Id CoreInCore = new("core-in-core");
    public static readonly Id CoreOperandMissing = new("core-operand-missing");
    public static readonly Id CoreOperandUnknown = new("core-operand-unknown");
    public static readonly Id CoreBroken = new("core-broken");
    public static readonly Id CoreGiven = new("core-given");
    public static readonly Id FollowsBroken = new("follows-broken");
    public static readonly Id FollowsDiffers = new("follows-differs");
    public static readonly Id FollowsNarrower = new("follows-narrower");
    public static readonly Id FollowsNothingShared = new("follows-nothing-shared");

    // Time
    public static readonly Id CountNegative = new("count-negative");
    public static readonly Id TooManyOperations = new("too-many-operations");
    public static readonly Id LastOutside = new("last-outside");
    public static readonly Id LastUnknown = new("last-unknown");
    public static readonly Id OperandAfterLoad = new("operand-after-load");
    public static readonly Id RegisterAtLoad = new("register-at-load");

    // Choices
    public static readonly Id ElseNotLast = new("else-not-last");
    public static readonly Id ElseNever = new("else-never");
    public static readonly Id LabelLength = new("label-length");
    public static readonly Id LabelNeedsReading = new("label-needs-reading");
    public static readonly Id ArmsOverlap = new("arms-overlap");
    public static readonly Id ArmMissing = new("arm-missing");
    public static readonly Id XOutsideLabel = new("x-outside-label");
    public static readonly Id ConditionWidth = new("condition-width");

    // Values
    public static readonly Id WidthMismatch = new("width-mismatch");
    public static readonly Id SignMismatch = new("sign-mismatch");
    public static readonly Id SidesDiffer = new("sides-differ");
    public static readonly Id SignsDiffer = new("signs-differ");
    public static readonly Id WidthUnknown = new("width-unknown");
    public static readonly Id ReadingNeeded = new("reading-needed");
    public static readonly Id NotHardware = new("not-hardware");
    public static readonly Id HardwareInResult = new("hardware-in-result");
    public static readonly Id PointOutside = new("point-outside");
    public static readonly Id ExtendCuts = new("extend-cuts");
    public static readonly Id TooManyEnter = new("too-many-enter");
    public static readonly Id ShiftDistance = new("shift-distance");
    public static readonly Id ShiftByOne = new("shift-by-one", Severity.Remark);
    public static readonly Id ShiftByWord = new("shift-by-word", Severity.Remark);
    public static readonly Id CopiesOfWord = new("copies-of-word");
    public static readonly Id MagnitudeOfUnsigned = new("magnitude-of-unsigned");
    public static readonly Id ArgumentCount = new("argument-count");
    public static readonly Id SecondName = new("second-name");
    public static readonly Id CarryOfSigned = new("carry-of-signed");
    public static readonly Id CarryOfLast = new("carry-of-last", Severity.Remark);
    public static readonly Id CsaOneName = new("csa-one-name");
    public static readonly Id SaysNothing = new("says-nothing");

    // Units
    public static readonly Id MeaningAsValue = new("meaning-as-value");
    public static readonly Id UnitAsValue = new("unit-as-value");
    public static readonly Id ViaIdle = new("via-idle");
    public static readonly Id ViaKind = new("via-kind");
    public static readonly Id ViaWidth = new("via-width");
    public static readonly Id UnitBusy = new("unit-busy");

    // Transfers
    public static readonly Id NotWritable = new("not-writable");
    public static readonly Id WrittenTwice = new("written-twice");
    public static readonly Id ReadAfterWrite = new("read-after-write");

    // Claims, and what is never used
    public static readonly Id GivenNobody = new("given-nobody");
    public static readonly Id OutsideNobody = new("outside-nobody", Severity.Remark);
    public static readonly Id NeverUsed = new("never-used", Severity.Remark);
    public static readonly Id NeverWritten = new("never-written", Severity.Hint);

    // Requests: what is asked of the tool
    public static readonly Id VerbMissing = new("verb-missing");
    public static readonly Id UnknownVerb = new("unknown-verb");
    public static readonly Id UnknownOption = new("unknown-option");
    public static readonly Id OptionElsewhere = new("option-elsewhere");
    public static readonly Id OptionTwice = new("option-twice");
    public static readonly Id OptionValueMissing = new("option-value-missing");
    public static readonly Id OptionValue = new("option-value");
    public static readonly Id MachineMissing = new("machine-missing");
    public static readonly Id NoSuchMachine = new("no-such-machine");
    public static readonly Id NoSuchFile = new("no-such-file");
    public static readonly Id FileUnreadable = new("file-unreadable");
    public static readonly Id FileTooLarge = new("file-too-large");
    public static readonly Id FileNotText = new("file-not-text");
    public static readonly Id FileExists = new("file-exists");
    public static readonly Id FileUnwritable = new("file-unwritable");
    public static readonly Id WordTooMany = new("word-too-many");
    public static readonly Id WidthNotNumber = new("width-not-number");
    public static readonly Id OperandNotNumber = new("operand-not-number");
    public static readonly Id OperandTooWide = new("operand-too-wide");
    public static readonly Id OperandNegative = new("operand-negative");
    public static readonly Id OperandCount = new("operand-count");
    public static readonly Id OperandTwice = new("operand-twice");
    public static readonly Id UnknownOperand = new("unknown-operand");
    public static readonly Id OperandsOutsideGiven = new("operands-outside-given");
    public static readonly Id TooManyCases = new("too-many-cases");
    public static readonly Id CheckTooLong = new("check-too-long");
    public static readonly Id NoGraphicsProcessor = new("no-graphics-processor");
    public static readonly Id GraphicsTrouble = new("graphics-trouble");
    public static readonly Id GraphicsNeedsGates = new("graphics-needs-gates");
    public static readonly Id SlipsTooLong = new("slips-too-long");
    public static readonly Id GatesTooMany = new("gates-too-many");
    public static readonly Id UnknownSlip = new("unknown-slip");
    public static readonly Id GivenBeyondGates = new("given-beyond-gates");
    public static readonly Id NothingChosen = new("nothing-chosen");
    public static readonly Id NoCondition = new("no-condition");
    public static readonly Id UnknownDecision = new("unknown-decision");
    public static readonly Id InvariantUnknown = new("invariant-unknown", Severity.Remark);
    public static readonly Id InvariantForm = new("invariant-form");
    public static readonly Id InvariantName = new("invariant-name");
    public static readonly Id InvariantPlaces = new("invariant-places");
    public static readonly Id UnknownInCondition = new("unknown-in-condition");
    public static readonly Id ConditionTooLarge = new("condition-too-large");
    public static readonly Id WidthNotOne = new("width-not-one");
    public static readonly Id WidthsTooMany = new("widths-too-many");
    public static readonly Id WidthsTurned = new("widths-turned");
    public static readonly Id NumberOption = new("number-option");
    public static readonly Id PartOutside = new("part-outside");
    public static readonly Id PartsTooMany = new("parts-too-many");
    public static readonly Id OptionsClash = new("options-clash");
    public static readonly Id OptionAlone = new("option-alone");
    public static readonly Id NotAResult = new("not-a-result");
    public static readonly Id ResultsFormat = new("results-format");
    public static readonly Id ResultsDiffer = new("results-differ");
    public static readonly Id ResultsGap = new("results-gap");
    public static readonly Id ResultsOverlap = new("results-overlap");
    public static readonly Id ResultsMissing = new("results-missing");
    public static readonly Id NotACheckpoint = new("not-a-checkpoint");
    public static readonly Id CheckpointFormat = new("checkpoint-format");
    public static readonly Id CheckpointDiffers = new("checkpoint-differs");
    public static readonly Id CheckpointUnwritten = new("checkpoint-unwritten", Severity.Remark);

    public static readonly Id FormContradicted = new("form-contradicted");
    public static readonly Id FormOfFile = new("form-of-file");
    public static readonly Id FileNeeded = new("file-needed");
    public static readonly Id MachineCount = new("machine-count");
    public static readonly Id NoSuchStyle = new("no-such-style");
    public static readonly Id StyleWord = new("style-word");
    public static readonly Id StyleValue = new("style-value");
    public static readonly Id StyleForm = new("style-form");
    public static readonly Id StyleColumn = new("style-column");
    public static readonly Id StyleColumnEmpty = new("style-column-empty");
    public static readonly Id StyleWithoutColumns = new("style-without-columns");

    public static readonly Id ViewMissing = new("view-missing");
    public static readonly Id UnknownView = new("unknown-view");
    public static readonly Id FigureForm = new("figure-form");
    public static readonly Id ViewUnsuited = new("view-unsuited");
    public static readonly Id OptionOfOtherView = new("option-of-other-view");
    public static readonly Id ViewOfOne = new("view-of-one");
    public static readonly Id FigureTooLarge = new("figure-too-large");
    public static readonly Id TableTooLong = new("table-too-long");
    public static readonly Id NoSuchPiece = new("no-such-piece");
    public static readonly Id NoSuchUnit = new("no-such-unit");
    public static readonly Id NoUnitNamed = new("no-unit-named");
    public static readonly Id AdderTwice = new("adder-twice");
    public static readonly Id ActivityOfNone = new("activity-of-none", Severity.Remark);
    public static readonly Id ClockTooShort = new("clock-too-short");
    public static readonly Id TableBeyondGates = new("table-beyond-gates");
    public static readonly Id ModelWord = new("model-word");
    public static readonly Id ModelForm = new("model-form");
    public static readonly Id ModelNumber = new("model-number");
    public static readonly Id ModelUnit = new("model-unit");
    public static readonly Id ModelRest = new("model-rest");
    public static readonly Id NoSuchCycle = new("no-such-cycle");
    public static readonly Id CyclesTurned = new("cycles-turned");
    public static readonly Id OutputMissing = new("output-missing");
    public static readonly Id PageMissing = new("page-missing");
    public static readonly Id PortTaken = new("port-taken");

    public static readonly Id CodesMissing = new("codes-missing");
    public static readonly Id MarkMissing = new("mark-missing");
    public static readonly Id AnswersUnreadable = new("answers-unreadable");
    public static readonly Id MarkByHand = new("mark-by-hand");
    public static readonly Id NoSuchQuestion = new("no-such-question");
    public static readonly Id TaskLink = new("task-link");

    public static readonly Id GotMissing = new("got-missing");
    public static readonly Id GotForm = new("got-form");
    public static readonly Id GotName = new("got-name");
    public static readonly Id GotValue = new("got-value");
    public static readonly Id GotCycle = new("got-cycle");
    public static readonly Id TableCell = new("table-cell");
    public static readonly Id TableEmpty = new("table-empty");
    public static readonly Id RefineCore = new("refine-core");
    public static readonly Id RefineTooWide = new("refine-too-wide");
    public static readonly Id RefineBroken = new("refine-broken");
    public static readonly Id RefineUnlike = new("refine-unlike");
    public static readonly Id RefineOneMachine = new("refine-one-machine");
    public static readonly Id RefineMachineCount = new("refine-machine-count");
    public static readonly Id RefineNoProposal = new("refine-no-proposal");
    public static readonly Id ExplainingTooWide = new("explaining-too-wide");

    public static readonly Id LessonMissing = new("lesson-missing");
    public static readonly Id PackMissing = new("pack-missing");
    public static readonly Id FolderNotEmpty = new("folder-not-empty");
    public static readonly Id PackOverLesson = new("pack-over-lesson");
    public static readonly Id PackAroundLesson = new("pack-around-lesson");
    public static readonly Id LessonTooLarge = new("lesson-too-large");
    public static readonly Id LessonTooDeep = new("lesson-too-deep");
    public static readonly Id LessonHeader = new("lesson-header");
    public static readonly Id LessonHeaderOpen = new("lesson-header-open");
    public static readonly Id LessonKey = new("lesson-key");
    public static readonly Id LessonKeyEmpty = new("lesson-key-empty");
    public static readonly Id LessonBlockName = new("lesson-block-name");
    public static readonly Id LessonBlockOpen = new("lesson-block-open");
    public static readonly Id LessonBlockEmpty = new("lesson-block-empty");
    public static readonly Id LessonLetters = new("lesson-letters", Severity.Remark);
    public static readonly Id LessonRequest = new("lesson-request");
    public static readonly Id LessonFormula = new("lesson-formula");
    public static readonly Id LessonRoom = new("lesson-room");

    public static readonly Id QuestionTask = new("question-task");
    public static readonly Id QuestionLine = new("question-line");
    public static readonly Id QuestionSay = new("question-say");
    public static readonly Id QuestionDrawn = new("question-drawn");
    public static readonly Id QuestionSlip = new("question-slip");
    public static readonly Id QuestionColumn = new("question-column");
    public static readonly Id QuestionAlike = new("question-alike");
    public static readonly Id QuestionAlikeRows = new("question-alike-rows");
    public static readonly Id QuestionLines = new("question-lines");
    public static readonly Id QuestionView = new("question-view");
    public static readonly Id QuestionNone = new("question-none");
    public static readonly Id QuestionTooFew = new("question-too-few");
    public static readonly Id QuestionTooFewLeft = new("question-too-few-left");
    public static readonly Id QuestionIdle = new("question-idle");

    public static readonly Id ClassEmpty = new("class-empty");
    public static readonly Id ClassNoIdentifier = new("class-no-identifier");
    public static readonly Id ClassNobody = new("class-nobody");
    public static readonly Id ClassTwice = new("class-twice");
    public static readonly Id ClassTooLong = new("class-too-long");
    public static readonly Id ClassQuote = new("class-quote");
    public static readonly Id ClassMoreCells = new("class-more-cells");
    public static readonly Id ClassHidden = new("class-hidden");
    public static readonly Id ClassForm = new("class-form");
    public static readonly Id ClassTooWide = new("class-too-wide");
    public static readonly Id ClassColumns = new("class-columns");
    public static readonly Id ClassNoName = new("class-no-name");
    public static readonly Id ClassNoColumn = new("class-no-column");
    public static readonly Id ClassNoKey = new("class-no-key");
    public static readonly Id ClassLacks = new("class-lacks");

    public static readonly Id SheetsWithoutQuestion = new("sheets-without-question");
    public static readonly Id SheetsChanged = new("sheets-changed");
    public static readonly Id SheetsNoFirst = new("sheets-no-first");
    public static readonly Id SheetsUnreadable = new("sheets-unreadable");

    public static readonly Id QuizFile = new("quiz-file");
    public static readonly Id QuizWithoutQuestion = new("quiz-without-question");
    public static readonly Id QuizNothing = new("quiz-nothing");

    public static readonly Id FileOutside = new("file-outside");
    public static readonly Id UnknownValue = new("unknown-value");
    public static readonly Id ValueStale = new("value-stale");
    public static readonly Id ImageMissing = new("image-missing");
    public static readonly Id ImageKind = new("image-kind");
    public static readonly Id ImageTooLarge = new("image-too-large");

    /// <summary>Every row of the table.</summary>
    public static IReadOnlyList<Id> All { get; } =
    [
        .. typeof(Id)
            .GetFields(BindingFlags.Public | BindingFlags.Static)
            .Where(f => f.FieldType == typeof(Id))
            .Select(f => (Id)f.GetValue(null)!),
    ];

    public override string ToString() => Name;
}
