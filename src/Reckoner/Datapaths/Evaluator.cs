using System.Numerics;

namespace Reckoner.Datapaths;

/// <summary>The numbers that bits stand for.</summary>
internal static class Evaluator
{
    public static BigInteger Number(Value value, BigInteger bits) => value.Number(bits);

    public static BigInteger Number(Operand operand, BigInteger bits) => operand.Number(bits);
}
