System.Console.WriteLine("No benchmark yet");
