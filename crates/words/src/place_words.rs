//! Words that name places in the world of questions; none of them bears on the mechanics.

/// Does the word only say where?
pub(crate) fn is_place(word: &str) -> bool {
    matches!(
        word,
        "marram" | "quay" | "quayside" | "harbour" | "harbor" | "dock" | "docks" | "dockyard" | "port" | "jetty" | "pier" | "wharf" | "yard" | "shed" | "store" | "loft" | "warehouse" | "workshop" | "factory" | "works"
            | "beam" | "ceiling" | "roof" | "jib" | "crane" | "gantry" | "bracket" | "clamp" | "wall" | "sea-wall" | "shaft" | "mine" | "tower" | "building" | "barge" | "ship" | "hold" | "hut" | "boathouse" | "edge" | "top" | "summit"
            | "bottom" | "end" | "side" | "sides" | "edges" | "face" | "station" | "town" | "village" | "office" | "office-block" | "hotel" | "garage" | "hall" | "laboratory" | "lab" | "classroom" | "school" | "market" | "fish"
            | "sail" | "support" | "frame" | "hook" | "mast" | "cliff" | "stairs" | "store-room" | "storeroom" | "depot" | "siding" | "sidings" | "mouth"
    )
}
