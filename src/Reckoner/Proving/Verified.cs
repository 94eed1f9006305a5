using Reckoner.Claims;
using Reckoner.Datapaths;
using Reckoner.Verifier;

namespace Reckoner.Proving;

/// <summary>What the verifier said, and the claims that the certificate shows.</summary>
internal sealed record Verified(
    IMachine Machine,
    Verdict Verdict,
    IReadOnlyList<Claim> Laws,
    IReadOnlyList<Claim> Outside
);
