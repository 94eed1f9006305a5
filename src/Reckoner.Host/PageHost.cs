using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.FileProviders;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace Reckoner.Host;

/// <summary>Serves the page's folder to browsers on this machine, and to nobody else.</summary>
public static class PageHost
{
    /// <param name="port">0 for any that is free.</param>
    /// <param name="opened">Is told the address once it is served.</param>
    /// <param name="isWatched">Whether a page that is open asks every second whether its file is another, and is loaded anew then.</param>
    /// <param name="isServed">Which files of the folder are given out, by their paths in it with slashes; null for all.</param>
    /// <exception cref="IOException">The port cannot be had.</exception>
    public static async Task Run(
        string folder,
        int port,
        Action<string> opened,
        CancellationToken stop,
        bool isWatched = false,
        Func<string, bool>? isServed = null
    )
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions { ContentRootPath = folder });
        builder.Logging.ClearProviders();
        builder.Services.AddRouting();
        // A name that leads to this machine may be anybody's: only its own names are answered.
        builder.Services.AddHostFiltering(o => o.AllowedHosts = ["localhost", "127.0.0.1"]);
        builder
            .WebHost.UseKestrelCore()
            .ConfigureKestrel(o =>
            {
                o.AddServerHeader = false;
                o.Listen(IPAddress.Loopback, port);
            });
        await using var host = builder.Build();
        host.UseHostFiltering();
        host.Use(
            (context, next) =>
            {
                context.Response.Headers.CacheControl = "no-cache";
                context.Response.Headers.XContentTypeOptions = "nosniff";
                context.Response.Headers["Referrer-Policy"] = "no-referrer";
                context.Response.Headers["Cross-Origin-Resource-Policy"] = "same-origin";
                return next();
            }
        );
        if (isWatched)
        {
            host.Use((context, next) => Watched(context, next, Path.Combine(folder, "index.html")));
        }
        if (isServed is not null)
        {
            host.Use((context, next) => IsServed(context, isServed) ? next(context) : Missing(context));
        }
        host.UseFileServer(new FileServerOptions { FileProvider = new PhysicalFileProvider(folder) });
        try
        {
            await host.StartAsync(CancellationToken.None);
        }
        catch (SocketException e)
        {
            throw new IOException(e.Message, e);
        }
        var address = host
            .Services.GetRequiredService<IServer>()
            .Features.Get<IServerAddressesFeature>()!
            .Addresses.First();
        opened(address + "/");
        // Ends with the token, or when the system asks the process to end.
        await host.WaitForShutdownAsync(stop);
    }

    private static bool IsServed(HttpContext context, Func<string, bool> isServed) =>
        context.Request.Path.Value?.TrimStart('/') is { Length: > 0 } path && isServed(path);

    private static Task Missing(HttpContext context)
    {
        context.Response.StatusCode = StatusCodes.Status404NotFound;
        return Task.CompletedTask;
    }

    /// <summary>Asks for the head of its own file alone; whoever reads the page from the disk gets nothing of this.</summary>
    private const string Watching = """
        <script>
        (() => {
            const shown = "{tag}";
            setInterval(async () => {
                try {
                    const tag = (await fetch("/", { method: "HEAD", cache: "no-store" })).headers.get("etag");
                    if (tag !== null && tag !== `"${shown}"`) location.reload();
                } catch {
                    // Not served any more.
                }
            }, 1000);
        })();
        </script>

        """;

    private static async Task Watched(HttpContext context, RequestDelegate next, string page)
    {
        var isHead = HttpMethods.IsHead(context.Request.Method);
        if (
            !(isHead || HttpMethods.IsGet(context.Request.Method))
            || context.Request.Path.Value is not ("/" or "/index.html")
        )
        {
            await next(context);
            return;
        }
        var html = await File.ReadAllTextAsync(page, context.RequestAborted);
        // Of what is served, so that the page knows which version it shows, however soon the next one comes.
        var tag = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(html)));
        context.Response.Headers.ETag = $"\"{tag}\"";
        context.Response.ContentType = "text/html; charset=utf-8";
        if (isHead)
        {
            return;
        }
        var watching = Watching.Replace("{tag}", tag, StringComparison.Ordinal);
        await context.Response.WriteAsync(
            html.Replace("</body>", watching + "</body>", StringComparison.Ordinal),
            context.RequestAborted
        );
    }
}
