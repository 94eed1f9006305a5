using Reckoner.Measuring;

namespace Reckoner.Questions;

/// <summary>What is a machine built of, counted?</summary>
internal sealed record HardwareQuestion(AskedMachine Machine)
{
    public Answer<Hardware> Ask() => Machine.Bind().Then(Hardware.Of);
}
