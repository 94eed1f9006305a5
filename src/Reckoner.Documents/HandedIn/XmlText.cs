using System.Text;
using System.Xml;

namespace Reckoner.Documents.HandedIn;

/// <summary>Reads texts of XML piece by piece, so that one that is far too long is never held.</summary>
internal static class XmlText
{
    /// <exception cref="TooMuchException">Where the text gets longer than so many letters.</exception>
    public static void Append(XmlReader xml, StringBuilder text, int most)
    {
        var piece = new char[1024];
        for (int read; (read = xml.ReadValueChunk(piece, 0, piece.Length)) > 0; )
        {
            if (text.Length + read > most)
            {
                throw new TooMuchException();
            }
            text.Append(piece, 0, read);
        }
    }
}
