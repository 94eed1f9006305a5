using Reckoner.Structure;

namespace Reckoner.Questions;

/// <summary>What does the control unit of a machine do in which state, and which state follows when?</summary>
internal sealed record StatesQuestion(AskedMachine Machine)
{
    public Answer<ControlStates> Ask() => Machine.Bind().Then(ControlStates.Of);
}
