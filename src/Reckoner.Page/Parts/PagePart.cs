using Microsoft.AspNetCore.Components;
using Reckoner.Diagnostics;
using Reckoner.Page.State;

namespace Reckoner.Page.Parts;

/// <summary>A component that shows the model and is shown anew when that changes.</summary>
public abstract class PagePart : ComponentBase, IDisposable
{
    [CascadingParameter]
    public required PageModel Model { get; set; }

    [Inject]
    public required Browser Browser { get; set; }

    protected Desk Desk => Model.Desk;

    protected string Say(string key, params Fact[] facts) => Model.Words.Say(key, facts);

    protected override void OnInitialized() => Model.Changed += Refresh;

    private void Refresh() => _ = InvokeAsync(StateHasChanged);

    public void Dispose()
    {
        Model.Changed -= Refresh;
        GC.SuppressFinalize(this);
    }
}
