using System.Text;

namespace Reckoner.Cli;

/// <summary>Passes UTF-8 on to a writer of text, as it comes; a character may be cut in two by what is written.</summary>
internal sealed class TextStream(TextWriter text) : Stream
{
    private readonly Decoder decoder = Encoding.UTF8.GetDecoder();

    public override bool CanRead => false;
    public override bool CanSeek => false;
    public override bool CanWrite => true;
    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        var letters = new char[Encoding.UTF8.GetMaxCharCount(buffer.Length)];
        text.Write(letters.AsSpan(0, decoder.GetChars(buffer, letters, flush: false)));
    }

    public override void Flush() { }

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();
}
