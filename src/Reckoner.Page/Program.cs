using Microsoft.AspNetCore.Components.WebAssembly.Hosting;
using Reckoner.Page;

var builder = WebAssemblyHostBuilder.CreateDefault(args);
builder.RootComponents.Add<App>("#page");
builder.Services.AddSingleton<Browser>();
await builder.Build().RunAsync();
