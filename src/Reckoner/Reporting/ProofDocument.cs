using Reckoner.Claims;
using Reckoner.Numbers;
using Reckoner.Proving;
using Reckoner.Tables;
using Reckoner.Verifier;
using Reckoner.Words;

namespace Reckoner.Reporting;

/// <summary>A proof for every width: what is proved, what holds in every round, and what stayed open and why.</summary>
internal static class ProofDocument
{
    public static Document Of(ProofReport report, Vocabulary words)
    {
        var blocks = new List<Block>();
        if (report.ClaimsAny)
        {
            blocks.Add(new Pairs([.. report.Sections.SelectMany(s => Claims(s, report, words))]));
        }
        foreach (var section in report.Sections)
        {
            // Why something was not proved is asked only where it is not known to be wrong.
            if (section.Claims.Any(c => !c.IsProved && c.Fails is null))
            {
                blocks.AddRange(Ends(section, words));
                blocks.AddRange(section.Together.SelectMany(p => Broken(p, words)));
            }
            if (section.Claims.Any(c => c.IsProved))
            {
                blocks.AddRange(section.Proofs.SelectMany(p => Holding(p, report, words)));
            }
        }
        if (report.Refusal is not null)
        {
            blocks.Add(new Paragraph(words.Spell("prove.refused"), ParagraphRole.Note));
        }
        if (report.Sections.SelectMany(s => s.Claims).Any(c => c.IsProved))
        {
            blocks.Add(new Paragraph(Cases(report, words), ParagraphRole.Note));
        }
        if (report.Cycles is { } cycles)
        {
            blocks.Add(new Paragraph(Cycles(cycles, words), ParagraphRole.Note));
        }
        if (report.At is { IsAsked: false } usual)
        {
            blocks.Add(new Paragraph(Usual(usual, words), ParagraphRole.Note));
        }
        return
            Titled(report.Machine, Lead(report), report.Least, blocks, words) is var document
            && report.At is { IsAsked: true } asked
            ? document with
            {
                Leads = [.. report.IsWhole ? document.Leads : [], Asked(asked, words)],
            }
            : document;
    }

    private static Content Cycles(CycleCount cycles, Vocabulary words)
    {
        var said = words.Spell(
            cycles.IsSame ? "prove.cycles" : "prove.cycles-most",
            ("formula", Run.Formula(cycles.Most))
        );
        var seen = cycles.Seen.Select(s =>
            words.Spell(
                s.Least == s.Most ? "prove.cycles-one" : "prove.cycles-seen",
                ("widths", WidthText.Of(s.Datapath.Widths)),
                ("least", s.Least),
                ("most", s.Most)
            )
        );
        var all = cycles.Seen.Any(s => s.Datapath.Given.Count > 0) ? "prove.cycles-all" : "prove.cycles-every";
        return cycles.Seen.Count == 0
            ? said
            : said + Content.Text(" ") + words.Spell(all, ("seen", Content.Join(", ", seen)));
    }

    private static string Lead(ProofReport report) =>
        report.IsWhole ? "prove.whole"
        : !report.ClaimsAny ? "prove.nothing"
        : report.IsWrong ? "prove.false"
        : "prove.part";

    /// <summary>About the width that was asked about.</summary>
    private static Content Asked(AtWidth at, Vocabulary words) =>
        At(
            at.Holds switch
            {
                null => "prove.at-open",
                false => "prove.at-false",
                true when at.Tried is null => "prove.at-whole",
                true => "prove.at-tried",
            },
            at,
            words
        );

    /// <summary>Beside what is not proved for every width.</summary>
    private static Content Usual(AtWidth at, Vocabulary words) =>
        At(
            at.Holds switch
            {
                null => "prove.usual-open",
                false => "prove.usual-false",
                true => "prove.usual-tried",
            },
            at,
            words
        );

    private static Content At(string key, AtWidth at, Vocabulary words) =>
        words.Spell(key, ("widths", WidthText.Of(at.Datapath.Widths)), ("cases", at.Cases));

    public static Document Of(Verified verified, Vocabulary words)
    {
        var verdict = verified.Verdict;
        Block block = verdict.IsAccepted
            ? new Pairs([
                .. verified.Laws.Select(l => new Pair(words.Spell("prove.proved"), Run.Formula(l.Text))),
                .. verified.Outside.Select(o => new Pair(words.Spell("prove.outside"), Run.Formula(o.Text))),
            ])
            : new Paragraph(words.Spell(Key(verdict.Refusal!.Value), ("what", verdict.What)));
        var lead = verdict.IsAccepted ? "verify.accepted" : "verify.refused";
        return Titled(verified.Machine, lead, verdict.Least, [block], words);
    }

    /// <summary>What says in words why a proof ended.</summary>
    public static string Key(Obstacle obstacle) =>
        obstacle switch
        {
            Obstacle.SeveralWidths => "prove.several-widths",
            Obstacle.Uneven => "prove.uneven",
            Obstacle.BuildDiffers => "prove.build-differs",
            Obstacle.StopsEarly => "prove.stops-early",
            Obstacle.NotOneLoop => "prove.not-one-loop",
            Obstacle.NoLaws => "prove.no-laws",
            Obstacle.NoRound => "prove.no-round",
            Obstacle.Operation => "prove.operation",
            Obstacle.Formula => "prove.formula",
            Obstacle.Places => "prove.places",
            Obstacle.Degree => "prove.degree",
            Obstacle.Paths => "prove.paths",
            Obstacle.Samples => "prove.samples",
            Obstacle.Budget => "prove.budget",
        };

    /// <summary>What says in words why a certificate is not believed.</summary>
    public static string Key(Refusal refusal) =>
        refusal switch
        {
            Refusal.Unreadable => "verify.unreadable",
            Refusal.OtherForm => "verify.other-form",
            Refusal.OtherDescription => "verify.other-description",
            Refusal.TooLong => "verify.too-long",
            Refusal.NotKnown => "verify.not-known",
            Refusal.CasesDiffer => "verify.cases-differ",
            Refusal.WrongSum => "verify.wrong-sum",
            Refusal.NotWhole => "verify.not-whole",
            Refusal.WrongPieces => "verify.wrong-pieces",
        };

    public static Document Titled(
        Datapaths.IMachine machine,
        string lead,
        int least,
        IReadOnlyList<Block> blocks,
        Vocabulary words
    )
    {
        var name = machine.Name;
        return new Document(
            name,
            words.Language,
            machine.Slip is { } slip ? words.Say("walk.with-slip", ("name", name), ("slip", slip)) : name,
            Subtitle: null,
            blocks
        )
        {
            Leads = [words.Spell(lead, ("least", least))],
        };
    }

    private static IEnumerable<Pair> Claims(ProofSection section, ProofReport report, Vocabulary words)
    {
        foreach (var claim in section.Claims)
        {
            var key =
                claim.IsProved ? (section == report.Outside ? "prove.outside" : "prove.proved")
                : claim.Fails is not null ? "prove.wrong"
                : claim.IsUnseen ? "prove.unseen"
                : "prove.open";
            List<Content> said = [Run.Formula(claim.Claim.Text)];
            if (claim.Fails is { } fails)
            {
                said.Add(
                    words.Spell(
                        "prove.fails",
                        ("widths", WidthText.Of(fails.Datapath.Widths)),
                        ("operands", OperandsText.Operands(fails.Datapath, fails.Operands, words)),
                        ("results", OperandsText.Results(fails.Datapath, fails.Results, words))
                    )
                );
            }
            yield return new Pair(words.Spell(key), said);
        }
    }

    /// <summary>Where the reasoning ended.</summary>
    private static IEnumerable<Block> Ends(ProofSection section, Vocabulary words)
    {
        var ends = section
            .Claims.Select(c => c.Proof?.Obstacle)
            .OfType<NotReachedException>()
            .Select(e => (e.Obstacle, e.What))
            .Distinct();
        if (section.Obstacle is { } own)
        {
            ends = ends.Prepend((own, section.What));
        }
        return ends.Select(e => new Paragraph(Said(e.Obstacle, e.What, words), ParagraphRole.Note));
    }

    private static Content Said(Obstacle obstacle, string what, Vocabulary words) =>
        words.Spell(Key(obstacle), ("what", what));

    private static IEnumerable<Block> Loop(LoopInvariant loop, SectionProof proof, bool isOutside, Vocabulary words)
    {
        Pairs Said(IReadOnlyList<Fact> facts) =>
            new([.. facts.Select(f => new Pair(Run.Formula(InvariantText.Of(f, proof.Variables)), Content.Empty))]);

        var cut = loop.HeadPieces.Where(p => p.Name != p.Register.Name).ToList();
        yield return new Paragraph(
            words.Spell(isOutside ? "prove.head-outside" : "prove.head", ("line", loop.Segment.Line))
        );
        yield return Said(loop.NeededHead);
        if (cut.Count > 0)
        {
            yield return new Pairs([
                .. cut.Select(p => new Pair(
                    Run.Formula(p.Name),
                    words.Spell(
                        "prove.piece",
                        ("places", InvariantText.Places(p)),
                        ("name", Names.Of(p.Register, words))
                    )
                )),
            ]);
        }
        yield return new Paragraph(words.Spell("prove.exit"));
        yield return Said(loop.NeededExit);
    }

    /// <summary>What holds in the loops for a part of the operands.</summary>
    private static IEnumerable<Block> Holding(SectionProof proof, ProofReport report, Vocabulary words)
    {
        if (proof.Part.When.Count > 0)
        {
            var conditions = proof.Part.When.Select(w =>
                words.Spell(
                    w.IsSo ? "prove.so" : "prove.not-so",
                    ("formula", Run.Formula(FormulaText.Of(report.Laws.Claims[w.Law].Claim.Condition!)))
                )
            );
            yield return new Paragraph(
                words.Spell("prove.operands") + Content.Text(" ") + Content.Join(", ", conditions)
            );
        }
        foreach (var block in proof.Loops.SelectMany(l => Loop(l, proof, !proof.Part.IsInside, words)))
        {
            yield return block;
        }
    }

    /// <summary>Equations that held in every run and could not be shown to go on holding.</summary>
    private static IEnumerable<Block> Broken(SectionProof proof, Vocabulary words)
    {
        var equations = proof.Dropped.Where(d => d.Fact.IsEquation).ToList();
        if (equations.Count > 0)
        {
            yield return new Paragraph(words.Spell("prove.broken"));
            yield return new Pairs([
                .. equations.Select(d => new Pair(
                    Run.Formula(InvariantText.Of(d.Fact, proof.Variables)),
                    Content.Empty
                )),
            ]);
        }
    }

    private static Content Cases(ProofReport report, Vocabulary words)
    {
        var proofs = report.Sections.SelectMany(s => s.Proofs).Where(p => p.HasAny).ToList();
        var roots = proofs
            .SelectMany(p => p.Obligations.Select(o => o.Root).Concat(p.Claims.Select(c => c.End?.Root)))
            .OfType<Case>()
            .SelectMany(r => r.All)
            .ToList();
        return words.Spell(
            "prove.cases",
            ("cases", roots.Count(c => c.Goals is not null)),
            ("refuted", roots.Sum(c => c.Refuted.Count(r => r is not null)))
        );
    }
}
