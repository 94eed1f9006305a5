Console.WriteLine("Reckoner");
