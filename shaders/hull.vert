#version 300 es
// Bodies of the boat. In: position and normal in the boat frame, colour. Out: world normal and height over the
// water.
layout(location = 0) in vec3 a_position;
layout(location = 1) in vec3 a_normal;
layout(location = 2) in vec4 a_colour;
uniform mat4 u_boat_to_world;
uniform mat4 u_world_to_clip;
out vec3 v_normal;
out vec4 v_colour;
out float v_height;

void main() {
  vec4 world = u_boat_to_world * vec4(a_position, 1.0);
  v_normal = mat3(u_boat_to_world) * a_normal;
  v_colour = a_colour;
  v_height = world.z;
  gl_Position = u_world_to_clip * world;
}
