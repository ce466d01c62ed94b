Console.WriteLine("use: ./bench --list");
