using System.Diagnostics.CodeAnalysis;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.JSInterop;
using Reckoner.Checking;
using Reckoner.Diagnostics;
using Reckoner.Page.State;
using Reckoner.Questions;

namespace Reckoner.Page.Tests;

/// <summary>Parts of the page as HTML, without a browser: shown anew whenever the model changes.</summary>
internal sealed class Drawn : IAsyncDisposable
{
    private readonly HtmlRenderer renderer;
    private readonly ServiceProvider services;
    private Microsoft.AspNetCore.Components.Web.HtmlRendering.HtmlRootComponent root;

    private Drawn(Sheet sheet)
    {
        Model = new PageModel(new Nothing(), new Nothing(), () => TimeSpan.Zero, sheet, Looks.Read(""));
        services = new ServiceCollection()
            .AddSingleton<IErrorBoundaryLogger>(new Nothing())
            .AddSingleton(new Page.Browser(new Nothing()))
            .BuildServiceProvider();
        renderer = new HtmlRenderer(services, NullLoggerFactory.Instance);
    }

    public PageModel Model { get; }

    /// <param name="parts">What is shown; it finds the model.</param>
    public static async Task<Drawn> Of(Sheet sheet, RenderFragment parts)
    {
        var drawn = new Drawn(sheet);
        var parameters = new Dictionary<string, object?>
        {
            ["Value"] = drawn.Model,
            ["IsFixed"] = true,
            ["ChildContent"] = parts,
        };
        drawn.root = await drawn.renderer.Dispatcher.InvokeAsync(() =>
            drawn.renderer.RenderComponentAsync<CascadingValue<PageModel>>(ParameterView.FromDictionary(parameters))
        );
        return drawn;
    }

    /// <summary>Does something to the model; what is shown then.</summary>
    public Task<string> After(Action<PageModel> act) =>
        renderer.Dispatcher.InvokeAsync(() =>
        {
            act(Model);
            return root.ToHtmlString();
        });

    public async ValueTask DisposeAsync()
    {
        Model.Dispose();
        await renderer.DisposeAsync();
        await services.DisposeAsync();
    }

    /// <summary>Keeps nothing, runs nothing, and asks nothing of a browser.</summary>
    private sealed class Nothing : IKeeper, ICheckRunner, IErrorBoundaryLogger, IJSInProcessRuntime
    {
        public void Keep(string fragment) { }

        public void KeepLooks(string looks) { }

        public int Threads => 1;

        public Diagnostic? Refusal => null;

        public IPlaneEngine Engine(PlaneProgram program, long steps) => InterpretedEngine.Widest;

        public Task<CoveredSteps> Run(
            CheckProgram program,
            long from,
            long to,
            Action<long>? covered,
            CancellationToken stop
        ) => Task.FromResult(new CoveredSteps(from, new WordCheck(program.Datapath, null).Nothing, "never"));

        public ValueTask LogErrorAsync(Exception exception) => ValueTask.CompletedTask;

        public T Invoke<[DynamicallyAccessedMembers(Json)] T>(string identifier, params object?[]? args) => default!;

        public ValueTask<T> InvokeAsync<[DynamicallyAccessedMembers(Json)] T>(string identifier, object?[]? args) =>
            ValueTask.FromResult<T>(default!);

        public ValueTask<T> InvokeAsync<[DynamicallyAccessedMembers(Json)] T>(
            string identifier,
            CancellationToken cancellationToken,
            object?[]? args
        ) => ValueTask.FromResult<T>(default!);

        private const DynamicallyAccessedMemberTypes Json =
            DynamicallyAccessedMemberTypes.PublicConstructors
            | DynamicallyAccessedMemberTypes.PublicFields
            | DynamicallyAccessedMemberTypes.PublicProperties;
    }
}
