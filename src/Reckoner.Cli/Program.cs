using System.Text;
using Reckoner.Cli;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
using var session = new Session(Console.Out, Console.Error);
return session.Run(args);
