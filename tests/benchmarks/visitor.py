"""A visitor without a screen: speaks to the dashboard as a browser's page does, and draws nothing.

Two cores cannot draw thirty pages; thirty visitors ask as much of the server as thirty pages do.
"""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from streamlit.proto.BackMsg_pb2 import BackMsg
from streamlit.proto.ClientState_pb2 import ClientState
from streamlit.proto.Element_pb2 import Element
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg
from streamlit.proto.WidgetStates_pb2 import WidgetState
from websockets.asyncio.client import ClientConnection, connect

LARGEST_MESSAGE = 50_000_000


class Visitor:
    """One page as it stands after the last run of its script, and what was chosen on it."""

    def __init__(self, line: ClientConnection) -> None:
        """Begin on no page."""
        self._line, self._elements = line, dict[tuple[int, ...], Element]()
        self._pages, self._page, self._chosen = dict[str, str](), "", dict[str, WidgetState]()

    async def go(self, page: str) -> None:
        """Go to a page by the last part of its address ("" is the first)."""
        self._page, self._chosen = self._pages.get(page, ""), {}
        await self._run([])

    async def choose(self, label: str, option: str) -> None:
        """Choose one of several, by the words on it."""
        group = self._find("button_group", label)
        words = [one.content for one in group.button_group.options]
        if option not in words:
            raise LookupError(f"no {option!r} among {words}")
        chosen = WidgetState(id=group.button_group.id)
        chosen.string_array_value.data.append(option)
        self._chosen[chosen.id] = chosen
        await self._run([])

    async def press(self, label: str) -> None:
        """Press a button, by the beginning of its words."""
        button = self._find("button", label).button
        if button.disabled:
            raise LookupError(f"{button.label!r} cannot be pressed")
        await self._run([WidgetState(id=button.id, trigger_value=True)])

    def options(self, label: str) -> list[str]:
        """List the words to choose from."""
        return [one.content for one in self._find("button_group", label).button_group.options]

    def says(self, words: str) -> bool:
        """Say whether words stand anywhere on the page."""
        return any(words in str(element) for element in self._elements.values())

    @property
    def errors(self) -> list[str]:
        """List the errors that the page shows."""
        return [
            element.exception.message
            for element in self._elements.values()
            if element.WhichOneof("type") == "exception"
        ]

    def _find(self, kind: str, label: str) -> Element:
        found = [
            element
            for element in self._elements.values()
            if element.WhichOneof("type") == kind and getattr(element, kind).label.startswith(label)
        ]
        if not found:
            raise LookupError(f"no {kind} {label!r} on the page")
        return found[0]

    async def _run(self, pressed: list[WidgetState]) -> None:
        """Ask for a run with all that is chosen, and take in what it shows until it ends."""
        state = ClientState(page_script_hash=self._page)
        state.widget_states.widgets.extend([*self._chosen.values(), *pressed])
        await self._line.send(BackMsg(rerun_script=state).SerializeToString())
        while True:
            said = ForwardMsg.FromString(bytes(await self._line.recv(decode=False)))
            if said.WhichOneof("type") == "new_session":
                self._elements = {}
                self._page = said.new_session.page_script_hash
            elif said.WhichOneof("type") == "navigation":
                self._pages = {
                    "" if page.is_default else page.url_pathname: page.page_script_hash
                    for page in said.navigation.app_pages
                }
            elif said.WhichOneof("type") == "delta":
                self._take_in(said)
            elif said.script_finished == ForwardMsg.FINISHED_SUCCESSFULLY and (
                said.WhichOneof("type") == "script_finished"
            ):
                break

    def _take_in(self, said: ForwardMsg) -> None:
        path = tuple(said.metadata.delta_path)
        if said.delta.WhichOneof("type") == "new_element":
            self._elements[path] = said.delta.new_element


@asynccontextmanager
async def visiting(address: str) -> AsyncIterator[Visitor]:
    """Open a page of the dashboard at an address, and leave it at the end."""
    stream = f"{address.replace('http', 'ws', 1)}/_stcore/stream"
    async with connect(
        stream,
        subprotocols=["streamlit"],
        max_size=LARGEST_MESSAGE,  # type: ignore[list-item]
    ) as line:
        visitor = Visitor(line)
        await visitor.go("")
        yield visitor
